import { audio, sound } from '../../sound.ts';
import { play, type Voice } from '../../voices.ts';

/** What the helm hears beside the alarms: signals of the foredeck, and ticks to steer by. */

type Note = Voice['notes'][number];
const note = (at: number, lasts: number, hertz: number, shape: OscillatorType, level: number): Note => ({
  at,
  lasts,
  hertz,
  shape,
  level,
});

const voice = (...notes: Note[]): Voice => ({
  notes,
  signals: 1,
  lasts: Math.max(...notes.map(({ at, lasts }) => at + lasts)),
});

/** Five hard beats, again and again: nothing else on the page sounds like it. */
const STOP = voice(...[0, 0.16, 0.32, 0.48, 0.64].map((at) => note(at, 0.11, 980, 'square', 0.7)));
/** Ahead climbs, astern falls, neutral stays; whatever else is one bell. */
const OTHERS: Record<string, Voice> = {
  ahead: voice(note(0, 0.14, 660, 'triangle', 0.6), note(0.16, 0.2, 990, 'triangle', 0.6)),
  astern: voice(note(0, 0.14, 990, 'triangle', 0.6), note(0.16, 0.2, 660, 'triangle', 0.6)),
  neutral: voice(note(0, 0.14, 780, 'triangle', 0.6), note(0.16, 0.2, 780, 'triangle', 0.6)),
};
const BELL = voice(note(0, 0.22, 880, 'triangle', 0.6), note(0, 0.22, 1760, 'sine', 0.2));

/** Port: one low knock. Starboard: two high ones. Told apart by pitch and by rhythm, also by who hears only one of them. */
export const TICKS = {
  port: voice(note(0, 0.07, 330, 'triangle', 0.7)),
  starboard: voice(note(0, 0.04, 1320, 'triangle', 0.5), note(0.09, 0.04, 1320, 'triangle', 0.5)),
  /** It is not known where to turn: silence would say "steady". */
  unknown: voice(note(0, 0.3, 220, 'sine', 0.5), note(0.3, 0.4, 165, 'sine', 0.5)),
} satisfies Record<string, Voice>;

export const soundSignal = (signal: string): boolean =>
  sounded(signal === 'stop' ? STOP : (OTHERS[signal] ?? BELL));

/** Returns whether it could be heard. */
export function sounded(what: Voice): boolean {
  const out = audio();
  if (out?.context.state !== 'running' || sound.peek() === 'broken') return false;
  play(out.context, out.output, what, 1);
  return true;
}
