/** What the hand feels, where the phone can: a press is short, seen is two, not seen is long. Milliseconds on and off. */
const PATTERNS = {
  press: [30],
  stop: [120],
  seen: [40, 60, 40],
  missed: [350, 120, 350, 120, 350],
} as const;

export function buzz(what: keyof typeof PATTERNS): void {
  // Absent on iPhones, and refused before the first touch: the page must not depend on it.
  navigator.vibrate?.([...PATTERNS[what]]);
}
