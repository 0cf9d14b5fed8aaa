import type { Logger } from 'pino';
import type { Event } from '../../../shared/events.ts';
import type { State } from '../../../shared/state.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import type { Standing } from '../access.ts';
import type { Desk } from '../desk.ts';
import { createRing } from './ring.ts';

type Member = keyof State;

const KEPT = 512;

/** Members that go out at once with an event, since somebody waits for them: all others may wait for the next round. */
const WITH_EVENT: Partial<Record<Event['event'], readonly Member[]>> = {
  alert: ['alerts', 'report'],
  mark: ['watch'],
  signal: ['weigh'],
};

export interface PublisherPorts {
  desk: Pick<Desk, 'state' | 'track'>;
  /** Sends one frame to every page. */
  broadcast(text: string): void;
  log: Logger;
  /** Milliseconds between two rounds of updates at least. */
  coalesceMs: number;
  /** Number before the first message. It must differ between runs: a page may come back with a number of an earlier one. */
  first: number;
}

/** Numbers what all pages are told, and keeps the last of it. Nothing in here throws: the engine calls it. */
export function createPublisher({ desk, broadcast, log, coalesceMs, first }: PublisherPorts) {
  const ring = createRing(KEPT, first);
  /** JSON of each member as the pages know it. */
  const known = new Map<Member, string>();
  let at = 0;
  let lastRound = Number.NEGATIVE_INFINITY;
  let waiting: NodeJS.Timeout | undefined;

  function publish(type: string, members: string): void {
    const text = `{"type":"${type}","seq":${ring.latest() + 1},"at":${at},${members}}`;
    ring.push(text);
    broadcast(text);
  }

  /** The state as of now; undefined, and logged, when the desk can't tell it. Then no pulse goes out, and pages raise alarm. */
  function read(): State | undefined {
    try {
      const state = desk.state();
      at = Math.max(at, state.at);
      return state;
    } catch (error) {
      log.error({ err: error }, 'the state cannot be read, so pages are told nothing');
      return undefined;
    }
  }

  /** Tells what is different from what the pages know: of these members, or of all. */
  function tell(state: State, only?: readonly Member[]): void {
    const changes: [Member, string][] = [];
    for (const member of only ?? (Object.keys(state) as Member[])) {
      const json = JSON.stringify(state[member]);
      if (json !== undefined && json !== known.get(member)) changes.push([member, json]);
    }
    const gone = [...known.keys()].filter(
      (member) => state[member] === undefined && (!only || only.includes(member)),
    );
    // The time alone is no news; pulses carry it.
    if (gone.length === 0 && changes.every(([member]) => member === 'at')) return;
    for (const [member, json] of changes) known.set(member, json);
    for (const member of gone) known.delete(member);
    const unset = gone.length > 0 ? `,"unset":${JSON.stringify(gone)}` : '';
    publish('update', `"set":${object(changes)}${unset}`);
  }

  function round(): void {
    clearTimeout(waiting);
    waiting = undefined;
    lastRound = performance.now();
    const state = read();
    if (state) tell(state);
  }

  function changed(): void {
    if (waiting) return;
    const wait = lastRound + coalesceMs - performance.now();
    if (wait <= 0) round();
    else waiting = setTimeout(round, wait);
  }

  /** A message to one page, with the number of the latest. */
  const aside = (type: string, members = ''): string =>
    `{"type":"${type}","seq":${ring.latest()},"at":${at}${members && `,${members}`}}`;

  return {
    after: ring.after,
    latest: ring.latest,
    /** The latest time that the desk has told. */
    now: () => at,
    changed,
    aside,
    event(event: Event): void {
      at = Math.max(at, event.t);
      publish('event', `"event":${JSON.stringify(event)}`);
      const members = WITH_EVENT[event.event];
      const state = members && read();
      if (state) tell(state, members);
    },
    trackPoint(point: TrackPoint): void {
      at = Math.max(at, point.at);
      publish('track', `"append":[${JSON.stringify(point)}]`);
    },
    goodbye(reason: string): void {
      publish('goodbye', `"reason":${JSON.stringify(reason)}`);
    },
    /** Undefined when the state can't be read: silence is then the truth, and pages raise alarm over it. */
    pulse(): string | undefined {
      const state = read();
      if (!state) return undefined;
      const age = state.vessel.ages.position;
      return aside('pulse', age === undefined ? '' : `"lastFixAge":${age}`);
    },
    /** Everything as the pages know it, so that what changes later fits; undefined when nothing can be read. */
    snapshot({ role, key }: Standing): string | undefined {
      if (performance.now() - lastRound >= coalesceMs) round();
      if (known.size === 0) return undefined;
      const track = JSON.stringify(desk.track());
      const may = `"mayCommand":${role === 'command'},"role":"${role}"`;
      const bearer = key ? `,"bearer":${JSON.stringify(key.name)}` : '';
      return aside('snapshot', `"state":${object([...known])},"track":${track},${may}${bearer}`);
    },
    close(): void {
      clearTimeout(waiting);
    },
  };
}

const object = (members: readonly [string, string][]): string =>
  `{${members.map(([member, json]) => `${JSON.stringify(member)}:${json}`)}}`;
