import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { destination } from '../../../../shared/earth/geodesic.ts';
import { createEngine, step } from '../../../../shared/engine.ts';
import { recorded } from '../../../recorded.ts';
import { settings } from '../help.ts';

/** Position of the first RMC sentence, degrees. */
function placeOf(line: string): { lat: number; lon: number } {
  const [, , , lat = '', ns, lon = '', ew] = line.split(',');
  const degrees = (text: string, digits: number) =>
    Number(text.slice(0, digits)) + Number(text.slice(digits)) / 60;
  return { lat: degrees(lat, 2) * (ns === 'S' ? -1 : 1), lon: degrees(lon, 3) * (ew === 'W' ? -1 : 1) };
}

/** A fixed antenna for a day, taken for a boat that lies at the end of her cable in each of four directions from her mark. */
describe.each(['esbjerg-2020-06-25-gps-l1', 'ajaccio-2024-07-27-galileo-l1'])('%s', (name) => {
  const path = recorded(`static/${name}.nmea.gz`);
  const lines = path
    ? gunzipSync(readFileSync(path))
        .toString('latin1')
        .split(/\r?\n/)
        .filter((line) => line.startsWith('RMC', 3))
    : [];

  test.runIf(path).each([0, 90, 180, 270])('a mark that bears %d°: no drag in 24 hours', (bearing) => {
    let engine = createEngine({
      ...settings(),
      cable: { massPerMetre: 2.3, veered: 40 },
      circle: { margin: 6 },
    });
    const start = 1_700_000_000;
    const { lat, lon } = destination(placeOf(lines[0]!), bearing, 38);
    const found: string[] = [];
    for (const [i, text] of lines.entries()) {
      // These were recorded every 30 s, longer than a fix counts as fresh: they are told at the pace at which a receiver sends.
      const at = start + 2 * i;
      const done = step(engine, { kind: 'line', at, source: 'static', text });
      engine = done.state;
      for (const event of done.events)
        if (event.event === 'alert' && event.kind === 'drag') found.push(event.text);
      if (i === 3)
        engine = step(engine, {
          kind: 'command',
          at,
          by: 'Ann',
          command: { do: 'mark', how: { lat, lon, sigma: 3 } },
        }).state;
    }
    expect(lines.length).toBeGreaterThan(2000);
    expect(engine.watch.drag?.blocks).toBeGreaterThan(100);
    expect(found).toEqual([]);
  });
});
