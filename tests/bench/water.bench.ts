import { settingsOf } from '../../server/commands/rehearse.ts';
import { anchorages } from '../../server/simulate/anchorages.ts';
import { simulateNight } from '../../server/simulate/night.ts';
import type { Truth } from '../../server/simulate/simulator.ts';
import { turn } from '../../shared/quantities/angle.ts';
import { size, subtract, towards } from '../../shared/quantities/vector.ts';
import { decode } from '../../shared/sentences/decode.ts';
import { createVessel, hear, pass, view } from '../../shared/vessel/vessel.ts';
import { lieNow } from '../../shared/watch/lying.ts';
import { createWatch, onFix } from '../../shared/watch/watch.ts';

/**
 * `npm run bench:water [SEEDS] [HOURS]`: ground wind, stream and predicted heading against the truth of simulated nights. Prints the
 * table of docs/physics.md. The simulator's hull, cable and noise are its own (server/simulate).
 */
const [seeds = '2', hours = '7'] = process.argv.slice(2);

interface Row {
  windSpeed: number[];
  windFrom: number[];
  known: number[];
  drift: number[];
  vector: number[];
  set: number[];
  within: number[];
  heading: number[];
}

const rms = (errors: number[]): string =>
  errors.length === 0
    ? '–'
    : Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length).toFixed(2);
const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

function night(name: string, seed: number, row: Row): void {
  const scenario = anchorages().find((one) => one.name === name)!;
  const settings = settingsOf(scenario);
  const vessel = createVessel();
  const watch = createWatch();
  let truth: Truth | undefined;
  let second = 0;
  for (const item of simulateNight(scenario, seed, Number(hours))) {
    if (item.kind === 'truth') {
      truth = item.truth;
      if (truth.at - scenario.start.at > 900 && truth.at % 10 < 1) compare(truth);
      continue;
    }
    const { at, text } = item.said;
    if (Math.floor(at) > second) {
      second = Math.floor(at);
      pass(vessel, settings, second);
    }
    const sentence = decode(text, { requireChecksum: true });
    if (sentence.ok && hear(vessel, settings, sentence, at, 'sim').fix)
      onFix(watch, settings, view(vessel, settings, at));
  }

  function compare(real: Truth): void {
    const seen = view(vessel, settings, Math.max(real.at, second));
    if (seen.windGround && real.wind.speed > 1) {
      row.windSpeed.push(seen.windGround.value.speed - real.wind.speed);
      row.windFrom.push(turn(real.wind.from, seen.windGround.value.from));
    }
    const { lie } = lieNow(watch, settings, seen, undefined);
    row.known.push(lie?.stream ? 1 : 0);
    if (lie?.predictedHeading && seen.heading)
      row.heading.push(turn(seen.heading.value, lie.predictedHeading.value));
    if (!lie?.stream) return;
    const { set, drift } = lie.stream;
    const error = subtract(towards(drift.value, set.value), towards(real.stream.drift, real.stream.set));
    row.drift.push(drift.value - real.stream.drift);
    row.vector.push(size(error));
    if (real.stream.drift > 0.25) {
      row.set.push(turn(real.stream.set, set.value));
      row.within.push(Math.abs(turn(real.stream.set, set.value)) < 2 * set.sigma ? 1 : 0);
    }
  }
}

console.log(
  `| night (${seeds} seeds × ${hours} h) | wind speed, m/s | wind from, ° | stream known | drift, m/s | stream vector, m/s | set, ° (above 0.25 m/s) | set within 2 σ | predicted heading, ° |`,
);
console.log('| --- | --- | --- | --- | --- | --- | --- | --- | --- |');
for (const name of ['quiet-night', 'wind-against-tide', 'squall', 'catamaran-tide', 'drag-creep']) {
  const row: Row = {
    windSpeed: [],
    windFrom: [],
    known: [],
    drift: [],
    vector: [],
    set: [],
    within: [],
    heading: [],
  };
  for (let seed = 1; seed <= Number(seeds); seed++) night(name, seed, row);
  const share = (values: number[]) => (values.length === 0 ? '–' : `${Math.round(100 * mean(values))} %`);
  console.log(
    `| ${name} | ${rms(row.windSpeed)} | ${rms(row.windFrom)} | ${share(row.known)} | ${rms(row.drift)} | ${rms(row.vector)} | ${rms(row.set)} | ${share(row.within)} | ${rms(row.heading)} |`,
  );
}
