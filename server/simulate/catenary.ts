/** Cable between a point on a flat bottom and the roller: length m, weight under water N/m, spring of the whole N/m. */
export interface Line {
  length: number;
  weight: number;
  spring: number;
}

/** How a line hangs: `a` is its horizontal pull divided by its weight per metre, m; `rises` the angle's tangent at its lower end. */
export interface Hang {
  pull: number;
  a: number;
  /** Metres that lie on the bottom. */
  onBottom: number;
  rises: number;
}

const SLACK = (onBottom: number): Hang => ({ pull: 0, a: 0, onBottom, rises: 0 });
const CLOSE_ENOUGH = 1e-7;
const TRIES = 60;

/**
 * How the line hangs when its ends are `span` metres apart over the ground and `height` metres in height (`height` < length).
 * The span that a pull gives is known in closed form and grows ever slower with the pull (catenary, plus the stretch of the
 * spring), so Newton's method from the weak side finds the pull. `guess`: `a` of the step before.
 */
export function hang(line: Line, span: number, height: number, guess: number): Hang {
  const { length, weight, spring } = line;
  if (span <= length - height) return SLACK(length - height);
  const chord = Math.sqrt(length * length - height * height);
  const lifts = (chord * chord) / (2 * height);
  let a = Math.max(guess, 1e-4);
  for (let tries = 0; tries < TRIES; tries++) {
    let reach = (weight * a) / spring;
    let slope = weight / spring;
    if (a < lifts) {
      const suspended = Math.sqrt(height * height + 2 * a * height);
      const curve = Math.acosh(1 + height / a);
      reach += length - suspended + a * curve;
      slope += curve - (2 * height) / suspended;
    } else {
      const q = chord / (2 * a);
      const half = Math.asinh(q);
      reach += 2 * a * half;
      slope += 2 * (half - q / Math.sqrt(1 + q * q));
    }
    const miss = span - reach;
    if (Math.abs(miss) < CLOSE_ENOUGH) break;
    const next = a + miss / slope;
    a = next > 0 ? next : a / 10;
  }
  const pull = weight * a;
  if (a < lifts) {
    return { pull, a, onBottom: length - Math.sqrt(height * height + 2 * a * height), rises: 0 };
  }
  const rises = Math.sinh(Math.atanh(height / length) - Math.asinh(chord / (2 * a)));
  return { pull, a, onBottom: 0, rises: Math.max(0, rises) };
}
