/** A uniform cable between roller and anchor: veered length (m), height of the roller above the bottom (m), weight in water (N/m). */
export interface Hang {
  length: number;
  height: number;
  weight: number;
}

/** Forces and lengths of a cable that hangs at rest. Metres, newtons; angles in degrees: at the roller below the horizontal, at the anchor above the bottom. */
export interface Carried {
  /** Horizontal pull, the same at both ends. */
  horizontal: number;
  /** Horizontal distance from anchor to roller. */
  reach: number;
  suspended: number;
  onBottom: number;
  angleAtRoller: number;
  angleAtAnchor: number;
  tensionAtRoller: number;
  tensionAtAnchor: number;
}

export type Infeasible = {
  state: 'infeasible';
  /** not-a-cable: a measure is not a positive finite number; too-short: it does not reach the bottom; too-far: no cable of this length reaches there. */
  reason: 'not-a-cable' | 'too-short' | 'too-far';
};

/**
 * A cable at rest. slack: no pull, it hangs down and lies on the bottom; grounded: some of it lies on the bottom and the anchor
 * is pulled along it; lifted: none does, the anchor is pulled upwards; taut: a straight line, so that an inextensible cable no
 * longer says what it carries.
 */
export type CableShape =
  | ({ state: 'slack' | 'grounded' | 'lifted' } & Carried)
  | {
      state: 'taut';
      reach: number;
      suspended: number;
      onBottom: 0;
      angleAtRoller: number;
      angleAtAnchor: number;
    }
  | Infeasible;
