import { existsSync, readFileSync } from 'node:fs';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { createEngine, step } from '../../shared/engine.ts';

export const LOG = '../shared/recorded/boat-ijsselmeer-2018/ijsselmeer.nmea';

/** Lines of the real boat's log with the time at which they arrived (143 s, evenly spread: the speed does not depend on it). */
export function realMix(): { at: number; text: string }[] {
  if (!existsSync(LOG)) throw new Error(`NOT MEASURED: ${LOG} is absent`);
  const lines = readFileSync(LOG, 'latin1')
    .split(/\r?\n/)
    .filter((line) => /^[$!]/.test(line));
  const start = Date.UTC(2018, 7, 20, 9, 47, 36) / 1000;
  return lines.map((text, index) => ({ at: start + (143 * index) / lines.length, text }));
}

/** Sentences a second through the whole engine, watch on, each pass a fresh engine on the same log. */
export function engineSpeed(passes: number): number {
  const mix = realMix();
  const settings = { ...toSettings(commonBoat()), circle: { radius: 2000, margin: 6 } };
  const speeds: number[] = [];
  for (let pass = 0; pass < passes; pass++) {
    let engine = createEngine(structuredClone(settings));
    const begin = performance.now();
    for (const [index, { at, text }] of mix.entries()) {
      engine = step(engine, { kind: 'line', at, source: 'udp1', text }).state;
      if (index === 100) {
        const how = { lat: 52.85, lon: 5.31 };
        engine = step(engine, { kind: 'command', at, by: 'bench', command: { do: 'mark', how } }).state;
      }
    }
    speeds.push((mix.length / (performance.now() - begin)) * 1000);
  }
  return speeds.sort((a, b) => a - b)[Math.floor(passes / 2)]!;
}
