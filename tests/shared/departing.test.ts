import { describe, expect, test } from 'vitest';
import { windLoad } from '../../shared/cable/loads/wind.ts';
import type { Command } from '../../shared/commands.ts';
import { createEngine, step } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { snapshot } from '../../shared/snapshot.ts';
import { COMMON_ITEMS } from '../../shared/weigh/check.ts';
import { MARK, START, settings } from './weigh/help.ts';

/** Check, aweigh and the way out through the whole engine, on invented sentences. */
const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
const clock = (at: number) => {
  const day = at % 86_400;
  return `${two(day / 3600)}${two((day % 3600) / 60)}${two(day % 60)}`;
};
const KNOT = 1852 / 3600;

class Crew {
  engine = createEngine({ ...settings(), cable: { massPerMetre: 2.3, workingLoad: 10_000 } });
  events: Event[] = [];
  at = START;

  /** Seconds with the antenna so many metres south of the mark, the bow north, in so much wind from ahead. */
  lie(seconds: number, metres: number | ((second: number) => number), windKnots = 10, every = 1): void {
    for (let i = 0; i < seconds; i += every) {
      this.at += every;
      const south = typeof metres === 'number' ? metres : metres(i);
      const minutes = 60 * (36 + south / 110_962);
      const lat = `${two(minutes / 60)}${(minutes % 60).toFixed(5).padStart(8, '0')}`;
      this.line('HEHDT,0.0,T');
      this.line('SDDPT,6.0,0.5,');
      this.line(`WIMWV,0.0,R,${windKnots.toFixed(1)},N,A`);
      this.line(`GPRMC,${clock(this.at)},A,${lat},S,16330.00000,E,0.0,,141123,,,A`);
    }
  }

  order(command: Command) {
    return this.take({ kind: 'command', at: this.at, by: 'Ann', command });
  }

  now = () => snapshot(this.engine, this.at);
  notes = () => this.events.flatMap((event) => (event.event === 'note' ? [event.text] : []));

  private line(text: string): void {
    this.take({ kind: 'line', at: this.at, source: 'udp1', text: withChecksum(text) });
  }

  private take(input: Parameters<typeof step>[1]) {
    const done = step(this.engine, input);
    // As after a restart: what is not plain data is lost here.
    if (input.kind === 'command') this.engine = JSON.parse(JSON.stringify(done.state));
    this.events.push(...done.events);
    return done.answer;
  }
}

function anchored(): Crew {
  const crew = new Crew();
  crew.lie(5, 47);
  crew.order({ do: 'mark', how: { ...MARK, sigma: 1 } });
  crew.lie(5, 47);
  return crew;
}

describe('the departure check', () => {
  test('stands beside the mark, and not without one', () => {
    const crew = new Crew();
    expect(crew.now().check).toBeUndefined();
    const there = anchored().now().check!;
    expect(there.items).toEqual(COMMON_ITEMS);
    expect(there.last).toBeUndefined();
    expect(there.measured.find(({ item }) => item === 'wind')!.text).toMatch(/^Wind 10 kn from 000°/);
  });

  test('is journalled with time, ticks, what is open and what to look at; it forbids nothing', () => {
    const crew = anchored();
    const ticked = COMMON_ITEMS.slice(0, 5);
    expect(crew.order({ do: 'departure-check', ticked: [...ticked] })).toEqual({ ok: true });
    expect(crew.now().check!.last).toMatchObject({
      at: crew.at,
      by: 'Ann',
      ticked,
      open: COMMON_ITEMS.slice(5),
      look: expect.arrayContaining([expect.objectContaining({ item: 'stream', state: 'unknown' })]),
    });
    expect(crew.notes().at(-1)).toMatch(
      /^Departure check by Ann: 5 of 7 ticked; open: Fenders and lines clear, Way out looked at\. .*Stream not known/,
    );
    expect(crew.order({ do: 'weigh' })).toEqual({ ok: true });
  });

  test('tells the time to slack water as soon as anybody knows it', () => {
    const crew = anchored();
    const stream = () => crew.now().check!.measured.find(({ item }) => item === 'stream')!.text;
    expect(stream()).not.toMatch(/slack/);
    crew.order({ do: 'slacks', tell: [{ at: crew.at + 2400 }] });
    expect(stream()).toMatch(/slack water in 40 min \(± \d+ min\)/);
  });

  test('a tick that is not on the list is refused and changes nothing', () => {
    const crew = anchored();
    expect(crew.order({ do: 'departure-check', ticked: ['Dog walked'] })).toMatchObject({
      ok: false,
      why: expect.stringMatching(/"Dog walked" is not on the list: Cooling water flows/),
    });
    expect(crew.now().check!.last).toBeUndefined();
  });

  test("the crew's own list outlives anchorages and restarts; the last check does not count for another anchorage", () => {
    const crew = anchored();
    crew.order({ do: 'departure-items', items: ['Dinghy aboard', ' Kettle off '] });
    crew.order({ do: 'departure-check', ticked: ['Kettle off'] });
    expect(crew.now().check).toMatchObject({ own: true, items: ['Dinghy aboard', 'Kettle off'] });
    crew.order({ do: 'aweigh' });
    crew.lie(10, 300);
    crew.order({ do: 'mark', how: { here: true } });
    expect(crew.now().check).toMatchObject({ own: true, items: ['Dinghy aboard', 'Kettle off'] });
    expect(crew.now().check!.last).toBeUndefined();
    expect(crew.order({ do: 'departure-items', items: ['a', 'a'] })).toMatchObject({ ok: false });
    expect(crew.order({ do: 'departure-items', items: null })).toEqual({ ok: true });
    expect(crew.now().check!.items).toEqual(COMMON_ITEMS);
    expect(crew.now().check!.own).toBeUndefined();
  });
});

describe('an anchorage that is left', () => {
  test('is told with time, swing and worst load: the wind that lasted, not one gust', () => {
    const crew = anchored();
    crew.lie(120, 47, 10);
    crew.lie(1, 47, 60);
    crew.lie(120, 47, 10);
    const quiet = crew.now().watch.worstLoad!;
    expect(quiet.wind / KNOT).toBeLessThan(12.5);
    crew.lie(300, 47, 25);
    const { worstLoad } = crew.now().watch;
    expect(worstLoad!.wind / KNOT).toBeCloseTo(25, 0);
    // Drag area of such a boat from hull, length and beam, see shared/cable/loads/form.ts.
    expect(worstLoad!.value).toBeCloseTo(windLoad(0.25 * 12 * 4, worstLoad!.wind), 6);
    expect(worstLoad!.sigma / worstLoad!.value).toBeGreaterThan(0.3);
    crew.lie(200, 47, 8);
    expect(crew.now().watch.worstLoad).toEqual(worstLoad);
    crew.order({ do: 'aweigh' });
    expect(crew.notes().at(-1)).toMatch(
      /^Aweigh after 12 min, at most 38 m from the mark\. Worst steady load about 1\.2 kN \(± 1\.\d kN\) in 25 kn of wind, stream not known, 12 % of the chain's working load; sheer and waves not counted\.$/,
    );
    expect(crew.now().left).toMatchObject({ by: 'Ann', worstLoad, undoUntil: crew.at + 1800 });
    expect(crew.now().watch.worstLoad).toBeUndefined();
  });

  test('the track of leaving goes on until she is 5 km off, and is told', () => {
    const crew = anchored();
    crew.order({ do: 'aweigh' });
    const from = crew.at;
    crew.lie(2200, (second) => 47 + 2.5 * second);
    const { left } = crew.now();
    expect(left!.leaving.until! - from).toBeGreaterThan(1900);
    expect(left!.leaving.distance).toBeGreaterThan(5000);
    expect(left!.leaving.run / 1000).toBeCloseTo(5, 1);
    expect(crew.notes().filter((text) => text.startsWith('Track of leaving'))).toEqual([
      expect.stringMatching(/^Track of leaving kept: 5\.0 km in 33 min, 5\.0 km from the mark\.$/),
    ]);
    expect(crew.engine.watch.track.filter(({ at }) => at > from).length).toBeGreaterThan(1000);
  });

  test('or two hours long, or until the next mark; undone it is no leaving at all', () => {
    const slow = anchored();
    slow.order({ do: 'aweigh' });
    slow.lie(7300, 60, 10, 4);
    expect(slow.now().left!.leaving.until! - slow.now().left!.at).toBeGreaterThanOrEqual(7200);
    const again = anchored();
    again.order({ do: 'aweigh' });
    again.lie(60, (second) => 47 + second);
    again.order({ do: 'mark', how: { here: true } });
    again.lie(2, 107);
    expect(again.now().left!.leaving.until).toBeDefined();
    const back = anchored();
    back.order({ do: 'aweigh' });
    back.lie(20, 50);
    back.order({ do: 'undo-aweigh' });
    expect(back.now().left).toBeUndefined();
  });
});
