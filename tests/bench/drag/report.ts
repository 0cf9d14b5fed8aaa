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

/** A receiver that fails makes a plain circle false at any size: its rivals are sized on the other held kinds. */
const sound = (night: Night) => night.kind !== 'bad sky' && night.kind !== 'GNSS glitches';

export function detectors(held: Night[]): Detector[] {
  const ofSound = held.filter(sound);
  const own = Math.max(0.02, falseRate(ofSound, DRAG));
  return [
    HAWSE,
    DRAG,
    CAUTION,
    { name: 'plain circle, +10 m', alarm: (night) => night.plain[20] },
    quietest('plain circle as quiet as hawse', (night) => night.plainSound, ofSound, own),
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
  const figures = [0.5, 0.9, 1].map((q) => quantile(metres, q).toFixed(1).padStart(6)).join(' ');
  const rate = `${wrong}/${held.length} (${low.toFixed(3)}–${high.toFixed(3)})`;
  return `${detector.name.padEnd(40)} ${rate.padEnd(22)} ${`${inSound}/${held.filter(sound).length}`.padEnd(9)} ${String(missed).padStart(3)}/${String(dragging.length).padEnd(5)} ${figures}`;
}

export const HEADING = `${'nights with a false alarm (95 %)'.padStart(72)}, sound receiver; missed; metres at first alarm: median, p90, worst`;

/** 95 % interval of a proportion (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927). */
function wilson(k: number, n: number): [number, number] {
  if (n === 0) return [0, 1];
  const z = 1.96;
  const p = k / n;
  const mid = (p + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z / (1 + (z * z) / n)) * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n));
  return [Math.max(0, mid - half), Math.min(1, mid + half)];
}
