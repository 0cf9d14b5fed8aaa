import { describe, expect, test } from 'vitest';
import { settingsOf } from '../../../../server/commands/rehearse.ts';
import { type Moment, weighSimulated } from '../../../../server/simulate/weighing/weighing.ts';
import { distanceBearing } from '../../../../shared/earth/geodesic.ts';
import { turn } from '../../../../shared/quantities/angle.ts';
import { type Kind, scenarioOf } from '../../../bench/weigh/kinds.ts';

/** Whole weighings by a simulated crew, through the real engine. Behaviour only; the table over many seeds: docs/weigh.md. */
type How = Parameters<typeof weighSimulated>[3];
function weigh(kind: Kind, how: How, seed = 1): Moment[] {
  const scenario = scenarioOf(kind);
  const settings = settingsOf(scenario);
  return [...weighSimulated(scenario, settings, seed, { before: 60, ...how })];
}

const lead = ({ truth }: Moment) =>
  Math.abs(turn(truth.heading, distanceBearing(truth.roller, truth.anchor).bearing));
const alerts = (moments: Moment[]): string[] =>
  moments.flatMap(({ events }) =>
    events.flatMap((event) =>
      event.event === 'alert' && event.state === 'active-unacknowledged' ? [event.kind] : [],
    ),
  );
const guided: How = { helm: 'guided', entries: true };

describe('a helm that follows the guidance', () => {
  const good = weigh({ hull: 'monohull', stream: 'across' }, guided);

  test('comes up to the anchor and weighs it, with a fair lead and without one warning', () => {
    expect(good.at(-1)!.truth.hold).toBe('aweigh');
    const held = good.filter(({ truth }) => truth.hold === 'held');
    const fair = held.filter((moment) => lead(moment) < 60).length / held.length;
    expect(fair).toBeGreaterThan(0.8);
    expect(alerts(good)).toEqual([]);
  });

  test('hears each stage in its order', () => {
    const stays = good.flatMap(({ view }) => (view?.stay ? [view.stay.name] : []));
    expect(stays.filter((stay, index) => stay !== stays[index - 1])).toEqual([
      'long',
      'short',
      'up-and-down',
      'aweigh',
    ]);
  });

  test('while one who just points at the wind is set across, and is warned before the cable is under the hull', () => {
    const wind = weigh({ hull: 'monohull', stream: 'across' }, { helm: 'wind', entries: true });
    const began = 15;
    const under = wind.findIndex((moment, t) => t > began && moment.truth.load > 100 && lead(moment) > 90);
    const warned = wind.findIndex(({ events }) =>
      events.some((event) => event.event === 'alert' && ['lead-foul', 'overrun'].includes(event.kind)),
    );
    expect(warned).toBeGreaterThan(began);
    if (under >= 0) expect(warned).toBeLessThan(under);
  });
});

test('a helm that overruns is told so', () => {
  const moments = weigh({ hull: 'monohull', stream: 'none' }, { helm: 'overruns', entries: true });
  expect(alerts(moments).some((kind) => kind === 'overrun' || kind === 'lead-foul')).toBe(true);
});

test('the windlass of the simulated crew heaves only while the cable is easy', () => {
  const moments = weigh({ hull: 'monohull', stream: 'none' }, guided);
  let before = moments[0]!.truth;
  for (const { truth } of moments) {
    if (truth.veered < before.veered && truth.veered > 12) expect(before.load).toBeLessThan(1000);
    before = truth;
  }
});

test('nobody tells anything: no certainty about the cable, yet the way to the anchor is there', () => {
  const moments = weigh({ hull: 'monohull', stream: 'none' }, { helm: 'guided', entries: false });
  const middle = moments[Math.floor(moments.length / 3)]!.view!;
  expect(middle.guidance).toBeDefined();
  expect(middle.out!.from).toBe('bounds');
  expect(middle.cable).toBeUndefined();
});

test('the same seed gives the same weighing', () => {
  const once = weigh({ hull: 'catamaran', stream: 'with' }, { ...guided, most: 60 }, 3);
  const twice = weigh({ hull: 'catamaran', stream: 'with' }, { ...guided, most: 60 }, 3);
  expect(JSON.stringify(twice)).toBe(JSON.stringify(once));
});
