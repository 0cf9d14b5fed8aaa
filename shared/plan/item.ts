/** One figure of a plan with where it comes from. */
export interface PlanItem {
  value: number;
  sigma?: number;
  /** m, N, ° or a plain number (×). */
  unit: 'm' | 'N' | '°' | '×';
  /** Name of the formula or rule. */
  formula: string;
  /** Who published it, with its mark: F published, M from memory, P common practice, C derived here. */
  source: string;
  /** What to keep in mind about this figure; absent: nothing particular. */
  caution?: string;
}

/** Formulas and their sources, as shown beside each figure. */
export const SOURCES = {
  windLoad: {
    formula: '½ρ·C_d·A·V² at gust speed, × sheer factor',
    source:
      'Larsson & Eliasson, Principles of Yacht Design [F]; gust 1.4 [P]; sheer 1.5: Practical Sailor, Good Old Boat [F]',
  },
  streamLoad: {
    formula: '½ρV²(0.1·B·T + S·C_f)',
    source: 'UFC 4-159-03 (2005) §4-5 [F]; hull from length, beam, draft [P]',
  },
  load: { formula: 'wind and stream from the same side', source: 'sum of the two [C]' },
  tableLoad: {
    formula: 'design load for 30 kn by length or beam',
    source: 'ABYC H-40 table 1, republished [F]; beams [M]',
  },
  workingLoadShare: {
    formula: 'tension at the roller ÷ working load',
    source: 'catenary [C]; chain table [F]',
  },
  veer: {
    formula:
      'no upward pull on the anchor at high water under the load: h·√(1 + 2H/(wh)); at least scope 4 (rope 6)',
    source: 'Faltinsen, Sea Loads (1990) ch. 8 [M]; Bay Sea School [F]',
  },
  veerAsked: { formula: 'as asked', source: 'request' },
  scope: {
    formula: 'veered ÷ height of the roller above the bottom at high water',
    source: 'trade rule [F]',
  },
  angleAtAnchor: {
    formula: 'catenary at high water under the load',
    source: 'closed form [C]; limits: Danton [M], Hancock, SAIL [F]',
  },
  onBottom: {
    formula: 'catenary at high water under the load',
    source: 'Faltinsen, Sea Loads (1990) ch. 8 [M]',
  },
  reach: {
    formula: 'catenary under the load',
    source: 'Faltinsen, Sea Loads (1990) ch. 8 [M]; lifted: closed form [C]',
  },
  circle: {
    formula: '√(L² − h²) at low water, taut cable',
    source: 'geometry; NAVEDTRA 14221 ch. 12 for the circles [F]',
  },
  longestForRoom: { formula: '√((room − length)² + h²) at low water', source: 'geometry [C]' },
  roomLeft: { formula: 'room − circle of the stern', source: 'geometry [C]' },
  underKeelLow: {
    formula: 'depth − fall − draft − slope × circle of the stern',
    source: 'geometry; margin 0.5 to 1 m for small craft [P]',
  },
  surgePeak: {
    formula: '½mv² into chain and snubber',
    source: 'energy balance on the catenary [C]; nylon [P]',
  },
} as const;
