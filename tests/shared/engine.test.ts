import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createEngine, step } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import type { Input } from '../../shared/input.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import type { Settings } from '../../shared/settings.ts';
import { snapshot } from '../../shared/snapshot.ts';

/** Behaviour of the whole engine on invented sentences: order, time, bad input. No physics is proven here. */
const settings: Settings = {
  boat: {
    name: 'Sandpiper',
    hull: 'monohull',
    length: 12,
    beam: 4,
    draft: 1.9,
    roller: { height: 1.4 },
    antenna: { aftOfRoller: 9, toStarboard: 0 },
    sounder: { aftOfRoller: 4 },
    windage: {},
  },
  cable: { massPerMetre: 2.3, veered: 30 },
  limits: {},
  circle: { radius: 40, margin: 6 },
  deviation: [],
  checksumOptional: [],
};

const START = 1_700_000_000;

const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
function clock(at: number): string {
  const day = at % 86_400;
  return `${two(day / 3600)}${two((day % 3600) / 60)}${two(day % 60)}`;
}

/** A fix `metres` north of the mark's latitude 36° S, in the 1 Hz of an ordinary receiver. */
function fix(at: number, metres: number): string {
  const minutes = 60 * (36 - metres / 110_962);
  const lat = `${two(minutes / 60)}${(minutes % 60).toFixed(5).padStart(8, '0')}`;
  return withChecksum(`GPRMC,${clock(at)},A,${lat},S,16330.00000,E,0.1,,141123,,,A`);
}

const line = (at: number, text: string): Input => ({ kind: 'line', at, source: 'udp1', text });
const heading = (at: number) => line(at + 0.1, withChecksum('HEHDT,0.0,T'));

/** Two minutes inside the circle, then carried out of it for good; a mark after ten seconds. */
function night(): Input[] {
  const inputs: Input[] = [];
  for (let i = 0; i < 240; i++) {
    const at = START + i;
    inputs.push(line(at, fix(at, Math.min(60, 20 + Math.max(0, i - 120)))), heading(at));
    if (i === 10) {
      const how = { lat: -36, lon: 163.5 };
      inputs.push({ kind: 'command', at: at + 0.5, by: 'tester', command: { do: 'mark', how } });
    }
  }
  return inputs;
}

function run(inputs: Input[]): Event[] {
  let engine = createEngine(structuredClone(settings));
  return inputs.flatMap((input) => {
    const done = step(engine, input);
    engine = done.state;
    return done.events;
  });
}

describe('the engine', () => {
  test('a boat that is carried out of her circle raises outside-circle, once', () => {
    const raised = run(night()).filter((event) => event.event === 'alert' && event.kind === 'outside-circle');
    expect(raised).toHaveLength(1);
    expect(raised[0]).toMatchObject({ state: 'active-unacknowledged', priority: 'alarm', limit: 40 });
    expect(raised[0]!.t).toBeGreaterThan(START + 120);
  });

  test('ticks between the lines change nothing: live and replay give the same events to the byte', () => {
    const plain = JSON.stringify(run(night()));
    fc.assert(
      fc.property(fc.infiniteStream(fc.boolean()), (coin) => {
        const ticked = night().flatMap((input): Input[] =>
          coin.next().value ? [{ kind: 'tick', at: input.at }, input] : [input],
        );
        expect(JSON.stringify(run(ticked))).toBe(plain);
      }),
      { numRuns: 20 },
    );
  });

  test('a state that was saved as JSON and read again goes on as if nothing had happened', () => {
    const inputs = night();
    const whole = JSON.stringify(run(inputs));
    for (const cut of [1, 21, 100, 245, 300]) {
      let engine = createEngine(structuredClone(settings));
      const events: Event[] = [];
      for (const [index, input] of inputs.entries()) {
        if (index === cut) engine = JSON.parse(JSON.stringify(engine));
        const done = step(engine, input);
        engine = done.state;
        events.push(...done.events);
      }
      expect(JSON.stringify(events)).toBe(whole);
    }
  });

  test('an input from the past is a broken invariant, not a silent reordering', () => {
    const engine = createEngine(settings);
    step(engine, { kind: 'tick', at: START });
    expect(() => step(engine, { kind: 'tick', at: START - 1 })).toThrow(/time went back/);
  });

  test('a very long silence costs a bounded number of steps and still raises position-lost', () => {
    const inputs = night().slice(0, 60);
    const events = run([...inputs, { kind: 'tick', at: START + 30 * 365 * 86_400 }]);
    expect(events.some((event) => event.event === 'alert' && event.kind === 'position-lost')).toBe(true);
    expect(events.length).toBeLessThan(100);
  });

  test('bad lines are counted by input and reason, the last one told in words', () => {
    let engine = createEngine(structuredClone(settings));
    for (const text of ['garbage', '$GPRMC,1*00', withChecksum('GPRMC,1'), withChecksum('XXYYY,1')]) {
      engine = step(engine, line(START, text)).state;
    }
    const input = snapshot(engine, START).inputs[0]!;
    expect(input.rejected.checksum).toBe(1);
    expect(input.rejected.checksum + input.rejected.malformed + input.rejected.unknown).toBe(4);
    expect(input.lastRefusal).toContain('XXYYY');
  });

  test('a fault of the daemon is an alert until it has ended', () => {
    let engine = createEngine(structuredClone(settings));
    const fault = { kind: 'fault', alert: 'disk', priority: 'alarm', text: 'the disk is full' } as const;
    const raised = step(engine, { ...fault, at: START, raised: true });
    engine = raised.state;
    expect(raised.events).toMatchObject([{ kind: 'disk', state: 'active-unacknowledged' }]);
    const id = (raised.events[0] as { id: string }).id;
    const command = { do: 'acknowledge', alert: id } as const;
    expect(step(engine, { kind: 'command', at: START + 1, by: 'x', command }).answer).toEqual({ ok: true });
    const ended = step(engine, { ...fault, at: START + 2, raised: false });
    expect(ended.events).toMatchObject([{ kind: 'disk', state: 'normal' }]);
  });

  test('signals are refused unless weighing; acknowledging what is not there is answered', () => {
    const engine = createEngine(structuredClone(settings));
    const ask = (command: Extract<Input, { kind: 'command' }>['command']) =>
      step(engine, { kind: 'command', at: START, by: 'x', command }).answer;
    expect(ask({ do: 'signal', signal: 'stop' })).toMatchObject({ ok: false, problem: 'refused' });
    expect(ask({ do: 'acknowledge', alert: 'nothing.1' })).toMatchObject({ ok: false, problem: 'unknown' });
  });
});
