import type { Alert, AlertKind } from '../../shared/alerts/alert.ts';
import { compareAlerts } from '../../shared/alerts/order.ts';
import { isActive, isUnacknowledged } from '../../shared/alerts/transitions.ts';
import { alc, alf, alr, type OnTheBus } from './encode.ts';
import { identifier, instanceOf, ON_THE_BUS, TEST } from './numbers.ts';
import type { Moment } from './output.ts';

export interface BulletinConfig {
  talker: string;
  manufacturer: string;
  formats: readonly ('ALR' | 'ALF')[];
  /** Orders come back from the bus. */
  accepts: boolean;
}

/** The list, and what is active by the older sentence, are told again after this: IEC 61162-1, ALC at most every 30 s [M]. */
const REPEAT = 30;
const REVISIONS = 99;
const MOST_ESCALATIONS = 9;

interface Told {
  alert: Alert;
  revision: number;
  escalation: number;
}

/** What the bus has been told, and so what it must be told next: ALF and ALR at each change, ALC and ALR again every 30 s. */
export function createBulletin({ talker, manufacturer, formats, accepts }: BulletinConfig) {
  const told = new Map<string, Told>();
  const hasAlf = formats.includes('ALF');
  const hasAlr = formats.includes('ALR');
  const category = accepts ? 'B' : 'A';
  let sequence = -1;
  let list = -1;
  let listedAt = Number.NEGATIVE_INFINITY;

  function asToldNow({ alert, revision, escalation }: Told, clockOffset: number): OnTheBus {
    const { number, title } = ON_THE_BUS[alert.kind];
    const { priority, state, text, stateSince } = alert;
    return {
      identifier: identifier(number),
      instance: instanceOf(alert.id),
      revision,
      escalation,
      priority,
      state,
      title,
      text,
      at: stateSince + clockOffset,
    };
  }

  function say(one: Told, clockOffset: number): string[] {
    sequence = (sequence + 1) % 10;
    return alf(talker, manufacturer, category, sequence, asToldNow(one, clockOffset));
  }

  /** Takes the alert as it is now; undefined when nothing is new about it. */
  function change(alert: Alert): Told | undefined {
    const before = told.get(alert.id);
    if (!before) {
      const first = { alert, revision: 1, escalation: alert.escalated ? 1 : 0 };
      told.set(alert.id, first);
      return first;
    }
    const { state, priority } = before.alert;
    if (state === alert.state && priority === alert.priority) {
      before.alert = alert;
      return undefined;
    }
    if (priority !== alert.priority && alert.escalated)
      before.escalation = Math.min(MOST_ESCALATIONS, before.escalation + 1);
    before.revision = (before.revision % REVISIONS) + 1;
    before.alert = alert;
    return before;
  }

  /** One ALR for each kind: active when any of them is, acknowledged when none waits; the words of the most urgent. */
  function ofKind(kind: AlertKind, clockOffset: number): string[] {
    const alerts = [...told.values()]
      .map(({ alert }) => alert)
      .filter((alert) => alert.kind === kind)
      .sort(compareAlerts);
    const [first] = alerts;
    if (!first) return [];
    const said = alr(talker, {
      number: ON_THE_BUS[kind].number,
      at: Math.max(...alerts.map(({ stateSince }) => stateSince)) + clockOffset,
      active: alerts.some(({ state }) => isActive(state)),
      acknowledged: !alerts.some(({ state }) => isUnacknowledged(state)),
      text: first.text,
    });
    return [said];
  }

  /** All kinds that have been told, for the repetition; one sentence that says "none" when there are none. */
  function everyKind(clockOffset: number): string[] {
    const kinds = [...new Set([...told.values()].map(({ alert }) => alert.kind))];
    const lines = kinds.flatMap((kind) => ofKind(kind, clockOffset));
    return lines.length > 0 ? lines : [alr(talker)];
  }

  function theList(): string[] {
    list = (list + 1) % 100;
    const entries = [...told.values()].map((one) => asToldNow(one, 0));
    return alc(talker, manufacturer, list, entries);
  }

  return {
    /** What has to be said now. `tell`: what is due; what was told once is told until it is normal. */
    next(tell: readonly Alert[], { alerts, at, clockOffset }: Moment): string[] {
      const lines: string[] = [];
      const changedKinds = new Set<AlertKind>();
      for (const alert of alerts) {
        if (!told.has(alert.id) && !tell.some(({ id }) => id === alert.id)) continue;
        const changed = change(alert);
        if (!changed) continue;
        changedKinds.add(alert.kind);
        if (hasAlf) lines.push(...say(changed, clockOffset));
      }
      for (const [id, { alert }] of [...told]) {
        if (alerts.some((held) => held.id === id)) continue;
        const normal = change({ ...alert, state: 'normal', stateSince: at })!;
        changedKinds.add(alert.kind);
        if (hasAlf) lines.push(...say(normal, clockOffset));
        if (
          hasAlr &&
          ![...told.values()].some((other) => other !== normal && other.alert.kind === alert.kind)
        )
          lines.push(...ofKind(alert.kind, clockOffset));
        told.delete(id);
      }
      if (hasAlr) for (const kind of changedKinds) lines.push(...ofKind(kind, clockOffset));
      if (at - listedAt >= REPEAT) {
        listedAt = at;
        if (hasAlf) lines.push(...theList());
        if (hasAlr) lines.push(...everyKind(clockOffset));
      }
      return lines;
    },
    /** Everything again: for a display that was switched on, or a port that has come back. */
    whole(clockOffset: number): string[] {
      const alfs = hasAlf
        ? [...[...told.values()].flatMap((one) => say(one, clockOffset)), ...theList()]
        : [];
      return [...alfs, ...(hasAlr ? everyKind(clockOffset) : [])];
    },
    /** The alert of this id again, as a display asks by ACN Q. */
    again(id: string, clockOffset: number): string[] {
      const one = told.get(id);
      return one && hasAlf ? say(one, clockOffset) : [];
    },
    /** The test of the horn: raised, then normal. */
    test(isRaised: boolean, { at, clockOffset }: Moment): string[] {
      const text = 'Test of the horn: no alert.';
      const utc = at + clockOffset;
      sequence = (sequence + 1) % 10;
      const alfs = alf(talker, manufacturer, category, sequence, {
        identifier: identifier(TEST.number),
        instance: 1,
        revision: isRaised ? 1 : 2,
        escalation: 0,
        priority: 'alarm',
        state: isRaised ? 'active-unacknowledged' : 'normal',
        title: TEST.title,
        text,
        at: utc,
      });
      const older = alr(talker, {
        number: TEST.number,
        at: utc,
        active: isRaised,
        acknowledged: !isRaised,
        text,
      });
      return [...(hasAlf ? alfs : []), ...(hasAlr ? [older] : [])];
    },
    isTelling: () => told.size > 0,
  };
}

export type Bulletin = ReturnType<typeof createBulletin>;
