import { type Alarm, type Night, STEPS } from './night.ts';

const quantile = (values: number[], q: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
};

export interface Detector {
  name: string;
  alarm(night: Night): Alarm | undefined;
}

export const HAWSE: Detector = {
  name: 'hawse: drag or outside-circle',
  alarm: (night) =>
    [night.drag, night.circle].filter((alarm) => alarm !== undefined).sort((a, b) => a.after - b.after)[0],
};
const DRAG: Detector = { name: 'hawse: drag', alarm: (night) => night.drag };
const CAUTION: Detector = { name: 'hawse: caution', alarm: (night) => night.caution ?? night.drag };

const falseRate = (nights: Night[], detector: Detector) =>
  nights.filter((night) => detector.alarm(night)).length / Math.max(1, nights.length);

/** The smallest threshold of a rival whose false alarms are no more than so many a night. */
function quietest(
  name: string,
  pick: (night: Night) => (Alarm | undefined)[],
  held: Night[],
  most: number,
): Detector {
  const at = (index: number): Detector => ({
    name: `${name}, ${STEPS[index]} m`,
    alarm: (night) => pick(night)[index],
  });
  for (let index = 0; index < STEPS.length; index++) if (falseRate(held, at(index)) <= most) return at(index);
  return at(STEPS.length - 1);
}

/** The plain circle widened until it is as quiet as hawse over all held kinds: what the project is measured against. */
const CIRCLE = 'plain circle as quiet as hawse';

/** A receiver that fails makes a plain circle false at any size: its rivals are sized on the other held kinds. */
const sound = (night: Night) => night.kind !== 'bad sky' && night.kind !== 'GNSS glitches';

export function detectors(held: Night[]): Detector[] {
  const ofSound = held.filter(sound);
  const own = Math.max(0.02, falseRate(ofSound, DRAG));
  return [
    HAWSE,
    DRAG,
    CAUTION,
    quietest(CIRCLE, (night) => night.plain, held, Math.max(0.02, falseRate(held, HAWSE))),
    { name: 'plain circle, +10 m', alarm: (night) => night.plain[20] },
    quietest('same, sound receivers only, its doubts told', (night) => night.plainSound, ofSound, own),
    quietest('clairvoyant at 0.04', (night) => night.clairvoyant, ofSound, 0.04),
  ];
}

/** An anchor that has moved less than this (m) when the night ends need not have been noticed. */
const NOTICEABLE = 15;

/** One row: false alarms, missed drags, and metres dragged at the first alarm; an alarm before the anchor had moved counts as it is, near 0. */
export function row(detector: Detector, held: Night[], dragging: Night[]): string {
  const alarms = dragging.map((night) => detector.alarm(night));
  const metres = alarms.filter((alarm) => alarm !== undefined).map(({ moved }) => moved);
  const missed = alarms.filter((alarm, i) => alarm === undefined && dragging[i]!.moved > NOTICEABLE).length;
  const wrong = held.filter((night) => detector.alarm(night)).length;
  const inSound = held.filter((night) => sound(night) && detector.alarm(night)).length;
  const [low, high] = wilson(wrong, held.length);
  const figures = [0.5, 0.9]
    .map((q) => {
      const [least, most] = between(metres, q);
      return `${quantile(metres, q).toFixed(1).padStart(5)} (${least.toFixed(1)}–${most.toFixed(1)})`.padEnd(
        18,
      );
    })
    .concat(quantile(metres, 1).toFixed(1).padStart(5))
    .join(' ');
  const delays = dragging.flatMap((night, i) =>
    alarms[i] && night.began !== undefined ? [(alarms[i].after - night.began) / 60] : [],
  );
  const delay = [0.5, 0.9].map((q) => quantile(delays, q).toFixed(1).padStart(6)).join(' ');
  const rate = `${wrong}/${held.length} (${low.toFixed(3)}–${high.toFixed(3)})`;
  return `${detector.name.padEnd(40)} ${rate.padEnd(22)} ${`${inSound}/${held.filter(sound).length}`.padEnd(9)} ${String(missed).padStart(3)}/${String(dragging.length).padEnd(5)} ${figures} ${delay}`;
}

export const HEADING = `${'nights with a false alarm (95 %)'.padStart(72)}, sound receiver; missed; metres at first alarm: median, p90 (95 % each), worst; delay since the first metre, min: median, p90`;

/** 95 % interval of a quantile by order statistics: the ranks are binomial, here by its normal approximation. */
function between(values: number[], q: number): [number, number] {
  const sorted = [...values].sort((a, b) => a - b);
  const n = sorted.length;
  const half = 1.96 * Math.sqrt(n * q * (1 - q));
  const at = (rank: number) => sorted[Math.min(n - 1, Math.max(0, Math.round(rank)))] ?? Number.NaN;
  return [at(q * n - half - 0.5), at(q * n + half - 0.5)];
}

/** Metres at the first alarm against those of the rivals, and what else can be counted. */
export function summary(held: Night[], dragging: Night[]): string[] {
  const all = detectors(held);
  const metres = (one: Detector) =>
    dragging.map((night) => one.alarm(night)?.moved).filter((value) => value !== undefined);
  const own = metres(HAWSE);
  const lines = all
    .slice(3)
    .map(
      (one) =>
        `hawse against ${one.name}: ${[0.5, 0.9].map((q) => (quantile(own, q) / quantile(metres(one), q)).toFixed(2)).join(' (median), ')} (p90)`,
    );
  const warned = dragging.filter(
    (night) => night.drag && night.caution && night.caution.after < night.drag.after,
  );
  const lead = warned.map((night) => (night.drag!.after - night.caution!.after) / 60);
  lines.push(
    `caution before the alarm: ${warned.length} of ${dragging.filter((night) => night.drag).length} nights, ${quantile(lead, 0.5).toFixed(1)} min (median)`,
  );
  const offers = [...held, ...dragging].flatMap(({ offer }) => (offer ? [offer] : []));
  const made = offers.filter(({ before, after }) => before !== after);
  const middle = (of: (one: (typeof made)[number]) => number) => quantile(made.map(of), 0.5).toFixed(1);
  lines.push(
    `mark offered to be moved within 30 min: ${made.length} of ${offers.length} nights; error of the mark ${middle(({ before }) => before)} m before, ` +
      `${middle(({ after }) => after)} m after (median); better in ${made.filter(({ before, after }) => after < before).length}`,
  );
  return lines;
}

/** The detectors that the plot compares. */
export const plotted = (held: Night[]): Detector[] => {
  const all = detectors(held);
  return [HAWSE, ...all.filter(({ name }) => name.startsWith(CIRCLE)), all.at(-1)!];
};

/** 95 % interval of a proportion (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927). */
function wilson(k: number, n: number): [number, number] {
  if (n === 0) return [0, 1];
  const z = 1.96;
  const p = k / n;
  const mid = (p + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z / (1 + (z * z) / n)) * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n));
  return [Math.max(0, mid - half), Math.min(1, mid + half)];
}
