/** The sounds themselves, made from oscillators: no file to load, nothing to fail at night. */

interface Note {
  /** Seconds after the start of the signal's first note, and how long it sounds. */
  at: number;
  lasts: number;
  hertz: number;
  shape: OscillatorType;
  level: number;
}

export interface Voice {
  notes: readonly Note[];
  /** Signals as a person counts them. */
  signals: number;
  lasts: number;
}

/**
 * An alarm is three short signals, a warning two, after the bridge alert standard (IEC 62923-1). The alarm holds a 520 Hz
 * square wave, the sound found to wake sleepers best (NFPA 72, 18.4.6), with an overtone that steps upwards; its energy
 * lies between 500 and 2500 Hz, where phones are loud and ears are keen.
 */
const alarmNotes = (count: number): Note[] =>
  Array.from({ length: count }, (_, i) => [
    { at: i * 0.55, lasts: 0.4, hertz: 520, shape: 'square' as const, level: 0.5 },
    {
      at: i * 0.55,
      lasts: 0.4,
      hertz: [1040, 1310, 1560][i] ?? 1040,
      shape: 'triangle' as const,
      level: 0.45,
    },
  ]).flat();

export const VOICES = {
  alarm: { notes: alarmNotes(3), signals: 3, lasts: 1.6 },
  warning: {
    notes: [0, 0.45].flatMap((at) => [
      { at, lasts: 0.3, hertz: 880, shape: 'triangle' as const, level: 0.5 },
      { at, lasts: 0.3, hertz: 1320, shape: 'sine' as const, level: 0.25 },
    ]),
    signals: 2,
    lasts: 0.8,
  },
  /** One soft note, once: the standard asks for no sound, and nobody is to be woken. */
  caution: {
    notes: [{ at: 0, lasts: 0.25, hertz: 660, shape: 'sine', level: 0.2 }],
    signals: 1,
    lasts: 0.25,
  },
  /** This page has lost the boat: falling pairs, not to be mistaken for the boat's own alarm. */
  linkLost: {
    notes: [0, 0.3, 0.8, 1.1].map((at, i) => ({
      at,
      lasts: 0.26,
      hertz: i % 2 === 0 ? 1250 : 740,
      shape: 'square' as const,
      level: 0.6,
    })),
    signals: 2,
    lasts: 1.5,
  },
  /** The alarm as it is, counted apart. */
  test: { notes: alarmNotes(3), signals: 1, lasts: 1.6 },
} satisfies Record<string, Voice>;

export type VoiceName = keyof typeof VOICES;

const ATTACK = 0.012;
/** Lets the audio thread see the first note before it is due. */
const LEAD = 0.03;

/** Schedules a voice on a running context, `level` 0..1. */
export function play(context: BaseAudioContext, into: AudioNode, voice: Voice, level: number): void {
  const start = context.currentTime + LEAD;
  for (const note of voice.notes) {
    const oscillator = context.createOscillator();
    const envelope = context.createGain();
    oscillator.type = note.shape;
    oscillator.frequency.value = note.hertz;
    const from = start + note.at;
    const to = from + note.lasts;
    envelope.gain.setValueAtTime(0, from);
    envelope.gain.linearRampToValueAtTime(note.level * level, from + ATTACK);
    envelope.gain.setValueAtTime(note.level * level, to - ATTACK);
    envelope.gain.linearRampToValueAtTime(0, to);
    oscillator.connect(envelope).connect(into);
    oscillator.start(from);
    oscillator.stop(to);
  }
}
