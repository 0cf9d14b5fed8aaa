import { describe, expect, test } from 'vitest';
import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import type { Command, PlacedMark, WatchChange } from '../../../shared/commands.ts';
import { createEngine } from '../../../shared/engine.ts';
import type { Input } from '../../../shared/input.ts';
import { tried, trier } from '../../../shared/logbook/what-if.ts';

/** A night tried otherwise: which orders become which. */
const AT = 1_700_000_000;
/** What an order that is left out becomes. */
const TIME_PASSES: Input[] = [{ kind: 'tick', at: AT }];
const base = () => ({
  ...toSettings(commonBoat()),
  circle: { margin: 6, radius: 60 },
  limits: { depthBelow: 2, windAbove: 15 },
});
const order = (command: Command): Input => ({ kind: 'command', at: AT, by: 'Ann', command });
const mark = (how: PlacedMark = { lat: -36, lon: 163.5 }): Input => order({ do: 'mark', how });
const watch = (change: WatchChange): Input => order({ do: 'watch', change });

describe('the settings before the mark', () => {
  test('have what is tried, and the state they came from keeps its own', () => {
    const engine = createEngine(base());
    const { settings } = tried(engine, {
      circleRadius: 40,
      veered: 33,
      massPerMetre: 1.5,
      limits: { depthBelow: 3, windAbove: null },
    });
    expect(settings.circle).toEqual({ margin: 6, radius: 40 });
    expect(settings.cable).toMatchObject({ veered: 33, massPerMetre: 1.5 });
    expect(settings.limits).toEqual({ depthBelow: 3 });
    expect(engine.settings).toEqual(base());
  });

  test('a circle of null is computed; what is not tried stays', () => {
    expect(tried(createEngine(base()), { circleRadius: null }).settings.circle).toEqual({ margin: 6 });
    expect(tried(createEngine(base()), {}).settings).toEqual(base());
  });
});

describe('the inputs', () => {
  test('other than orders of the watch and settings go through as they are', () => {
    const through = trier({ circleRadius: 40, mark: { lat: 1, lon: 2 } });
    for (const input of [
      { kind: 'line', at: AT, source: 'bus', text: '$' },
      { kind: 'tick', at: AT },
      order({ do: 'acknowledge', alert: 'drag.1' }),
    ] satisfies Input[])
      expect(through(input)).toEqual([input]);
  });

  test('the first mark is followed by what is tried, once', () => {
    const through = trier({ circleRadius: null, veered: 30, limits: { depthBelow: 3 } });
    expect(through(mark())).toEqual([
      mark(),
      {
        ...watch({ circleRadius: null, veered: 30, limits: { depthBelow: 3 } }),
        by: 'what if',
      },
    ]);
    expect(through(mark())).toEqual([mark()]);
    expect(trier({})(mark())).toEqual([mark()]);
    expect(trier({ massPerMetre: 1 })(mark())).toEqual([mark()]);
  });

  test('a tried mark takes the place of the first and of all later ones', () => {
    const elsewhere = { lat: -36.001, lon: 163.5, sigma: 4 };
    const through = trier({ mark: elsewhere });
    expect(through(mark())).toEqual([mark(elsewhere)]);
    expect(through(mark())).toEqual(TIME_PASSES);
  });

  test('what people told later about something tried is left out, the rest of the order stays', () => {
    const through = trier({ circleRadius: 40, veered: 30, limits: { depthBelow: 3 } });
    expect(through(watch({ circleRadius: 55 }))).toEqual(TIME_PASSES);
    expect(through(watch({ veered: 55, circleRadius: null }))).toEqual(TIME_PASSES);
    expect(through(watch({ limits: { depthBelow: 1 } }))).toEqual(TIME_PASSES);
    expect(through(watch({ veered: 55, limits: { depthBelow: 1, windAbove: 20 }, sectors: [] }))).toEqual([
      watch({ limits: { windAbove: 20 }, sectors: [] }),
    ]);
    const other = trier({ massPerMetre: 1 });
    expect(other(watch({ veered: 55, limits: { windAbove: 20 } }))).toEqual([
      watch({ veered: 55, limits: { windAbove: 20 } }),
    ]);
  });

  test('settings told later have what is tried, too', () => {
    const through = trier({ circleRadius: 40 });
    const [made] = through({ kind: 'settings', at: AT, settings: base() });
    expect(made).toMatchObject({ kind: 'settings', settings: { circle: { radius: 40 } } });
  });
});
