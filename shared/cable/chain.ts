/**
 * One kind of chain as sold. Loads in N. The working load is a quarter of the breaking load (coxeng.co.uk, published rule),
 * a third for G43 (1st-chainsupply.com chart). Makers differ by about 5 % in mass: a measured mass is better.
 */
export interface Chain {
  /** Wire as named by the trade, mm. */
  size: number;
  standard: 'DIN 766' | 'ISO 4565' | 'US G43';
  grade: 30 | 40 | 43;
  /** Inside length of a link, mm; it must fit the gypsy. */
  pitch?: number;
  /** In air, kg/m. */
  massPerMetre: number;
  workingLoad: number;
  breakingLoad: number;
  /** Where the row comes from: F published, M from memory. */
  source: string;
}

const CALIBRATED = 'F: chains.ie, grade 3/4 calibrated short link; working load = breaking load / 4';
const metric = (
  size: number,
  standard: 'DIN 766' | 'ISO 4565',
  pitch: number,
  massPerMetre: number,
  grades: { 30?: number; 40?: number },
): Chain[] =>
  ([30, 40] as const).flatMap((grade) => {
    const breaking = grades[grade];
    return breaking === undefined
      ? []
      : [
          {
            size,
            standard,
            grade,
            pitch,
            massPerMetre,
            breakingLoad: breaking * 1000,
            workingLoad: breaking * 250,
            source: CALIBRATED,
          },
        ];
  });

const LBF = 4.4482216;
const american = (inches: number, workingLbf: number, poundsAFoot: number): Chain => ({
  size: inches * 25.4,
  standard: 'US G43',
  grade: 43,
  massPerMetre: (poundsAFoot * 0.45359237) / 0.3048,
  workingLoad: workingLbf * LBF,
  breakingLoad: 3 * workingLbf * LBF,
  source: 'F: 1st-chainsupply.com working loads, breaking = 3 × working; mass M, ±5 %',
});

/** Short-link chain in common use; where a catalogue gives a range of mass, its lower end (the less favourable one). */
export const CHAINS: readonly Chain[] = [
  ...metric(6, 'DIN 766', 18.5, 0.8, { 30: 18, 40: 20 }),
  ...metric(7, 'DIN 766', 22, 1.1, { 30: 25, 40: 30 }),
  ...metric(8, 'DIN 766', 24, 1.4, { 30: 32, 40: 40 }),
  ...metric(10, 'ISO 4565', 30, 2.25, { 30: 50, 40: 63 }),
  ...metric(10, 'DIN 766', 28, 2.2, { 40: 63 }),
  ...metric(12, 'ISO 4565', 36, 3.1, { 30: 71, 40: 90 }),
  ...metric(13, 'DIN 766', 36, 3.8, { 30: 80 }),
  ...metric(14, 'DIN 766', 41, 4.25, { 30: 100, 40: 121 }),
  american(1 / 4, 2600, 0.7),
  american(5 / 16, 3900, 1.1),
  american(3 / 8, 5400, 1.55),
  american(1 / 2, 9200, 2.6),
];

/** The chain of that wire size (mm, within 0.1) in the table, the weakest grade first; undefined when there is none. */
export function chainOfSize(size: number): Chain | undefined {
  return CHAINS.find((chain) => Math.abs(chain.size - size) < 0.1);
}
