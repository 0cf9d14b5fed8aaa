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

const rate = (nights: Night[], detector: Detector) =>
  nights.filter((night) => detector.alarm(night)).length / nights.length;

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
  for (let index = 0; index < STEPS.length; index++) if (rate(held, at(index)) <= most) return at(index);
  return at(STEPS.length - 1);
}

export function rivals(held: Night[]): Detector[] {
  const own = rate(held, HAWSE);
  const plain = (night: Night) => night.plain;
  const clairvoyant = (night: Night) => night.clairvoyant;
  return [
    HAWSE,
    { name: 'plain circle, +10 m, three fixes', alarm: (night) => night.plain[20] },
    quietest('plain circle as quiet as hawse', plain, held, Math.max(own, 0.02)),
    quietest('clairvoyant at 0.04 a night', clairvoyant, held, 0.04),
  ];
}

/** Metres dragged at the first alarm, over nights that drag; an alarm before the anchor moved counts as 0 m. */
export function judge(detector: Detector, held: Night[], dragging: Night[]): string {
  const alarms = dragging.map((night) => detector.alarm(night));
  const metres = alarms.filter((alarm) => alarm !== undefined).map(({ moved }) => moved);
  const missed = alarms.filter((alarm, index) => alarm === undefined && dragging[index]!.moved > 15).length;
  const false_ = held.filter((night) => detector.alarm(night)).length;
  const [low, high] = wilson(false_, held.length);
  const figures = [0.5, 0.9, 1].map((q) => quantile(metres, q).toFixed(1).padStart(6)).join('');
  return `${detector.name.padEnd(42)} false ${false_}/${held.length} (${low.toFixed(3)}–${high.toFixed(3)})  missed ${missed}  m at alarm: median, p90, worst ${figures}`;
}

/** 95 % interval of a proportion (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927). */
function wilson(k: number, n: number): [number, number] {
  if (n === 0) return [0, 1];
  const z = 1.96;
  const p = k / n;
  const mid = (p + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z / (1 + (z * z) / n)) * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n));
  return [Math.max(0, mid - half), mid + half];
}
