import { expect, test } from 'vitest';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import { simulateNight } from '../../../server/simulate/night.ts';
import { createEngine, step } from '../../../shared/engine.ts';
import type { AlertEvent } from '../../../shared/events.ts';

/** Behaviour over a simulated hour (invented vessels): six neighbours, two of which drag, and one passes. */
test('the right neighbours are told of, and no other', () => {
  const scenario = anchorages().find(({ name }) => name === 'neighbours')!;
  const { boat, cable, start } = scenario;
  let engine = createEngine({
    boat,
    cable,
    limits: {},
    circle: { margin: 6 },
    deviation: [],
    checksumOptional: [],
  });
  const told: AlertEvent[] = [];
  const take = (input: Parameters<typeof step>[1]) => {
    const done = step(engine, input);
    engine = done.state;
    for (const event of done.events)
      if (event.event === 'alert' && event.kind === 'vessel-near') told.push(event);
  };
  let marked = false;
  for (const item of simulateNight(scenario, 1, 0.7)) {
    if (item.kind !== 'said') continue;
    const { at, text } = item.said;
    take({ kind: 'line', at, source: 'sim', text });
    if (!marked && at > start.at + 5) {
      marked = true;
      take({
        kind: 'command',
        at,
        by: 'test',
        command: { do: 'mark', how: { lat: start.lat, lon: start.lon } },
      });
    }
  }
  console.log(
    told
      .map(({ t, priority, state, text }) => `${Math.round(t - start.at)} s ${priority} ${state}: ${text}`)
      .join('\n'),
  );
  const of = (name: string) => told.filter(({ text }) => text.startsWith(name));
  // She drags from 900 s on at 0.25 m/s and would be alongside at about 1700 s: three reports of class B are all that there is.
  const otter = of('SLOW OTTER').find(({ text }) => text.includes('probably drags'))!;
  expect(otter.t - start.at).toBeLessThan(1500);
  expect(of('SLOW OTTER').some(({ priority }) => priority === 'alarm')).toBe(true);
  expect(of('BRASS THIMBLE').every(({ priority }) => priority === 'caution')).toBe(true);
  expect(of('BRASS THIMBLE').length).toBeGreaterThan(0);
  expect(
    of('NIGHT FERRY').some(({ priority, text }) => priority === 'warning' && text.includes('under way')),
  ).toBe(true);
  for (const quiet of ['MOSS LANTERN', 'GREY WITHY', 'OSTRAVA LOAM']) expect(of(quiet)).toEqual([]);
  expect(engine.neighbours.heard.malformed).toBe(0);
});
