import { signal } from '@preact/signals';
import { play, VOICES, type VoiceName } from './voices.ts';

/**
 * Whether this page can be heard, told from what the audio does and not from what was asked of it: `running` means that the
 * context says so and its clock has moved since the last tick. `broken`: it ran and has stopped (a call, a locked phone).
 */
export type SoundState = 'off' | 'starting' | 'running' | 'broken';

export const sound = signal<SoundState>('off');

let context: AudioContext | undefined;
let output: AudioNode | undefined;
let analyser: AnalyserNode | undefined;
let lastTime = 0;
/** When the audio's clock was last seen to move, and whether it has moved since the context runs. */
let movedMs = 0;
let hasMoved = false;
let startedMs = 0;
/** A person waits for the test: it is played as soon as the sound really runs. */
let testDue = false;
const played: Record<VoiceName, number> = { alarm: 0, warning: 0, caution: 0, linkLost: 0, test: 0 };

/** A context that says "running" while its clock stands this long cannot be heard. */
const STANDS_MS = 1500;
/** After this long it is dead (seen on iOS after a call) and is built anew. */
const DEAD_MS = 5000;

function build(monotonicMs: number): AudioContext {
  const made = new AudioContext({ latencyHint: 'playback' });
  analyser = made.createAnalyser();
  analyser.connect(made.destination);
  output = analyser;
  // A call, another app or the lock screen takes the sound away: known at once, not at the next heartbeat.
  made.onstatechange = () => checkSound(performance.now());
  lastTime = 0;
  movedMs = monotonicMs;
  hasMoved = false;
  return made;
}

/** What Safari offers to say what sound is for (Audio Session API). */
interface AudioSession extends EventTarget {
  type: string;
}

/**
 * Must be called from a tap: browsers keep a page silent until then. Resolves when the browser has answered; whether it
 * really runs is told by `sound`.
 */
export async function unlock(): Promise<void> {
  const session = (navigator as { audioSession?: AudioSession }).audioSession;
  // On iPhones (16.4 and later) the mute switch silences web audio unless the page says that sound is its purpose.
  if (session) session.type = 'playback';
  sound.value = 'starting';
  startedMs = performance.now();
  context ??= build(performance.now());
  try {
    await context.resume();
  } catch {
    sound.value = 'broken';
  }
}

/** As `unlock`; then plays the alarm itself once, at full level, so that the person hears what is to wake them. */
export async function switchOn(): Promise<void> {
  testDue = true;
  await unlock();
  // The audio's clock starts a moment after the browser has said yes.
  setTimeout(() => checkSound(performance.now()), 100);
}

/** For what schedules sounds of its own; undefined until a tap. */
export function audio(): { context: AudioContext; output: AudioNode } | undefined {
  return context && output ? { context, output } : undefined;
}

/** Sounds a voice, when that is possible. Returns whether it was; only then is it counted. */
export function give(voice: VoiceName, level: number): boolean {
  if (context?.state !== 'running' || sound.value === 'broken' || !output) return false;
  play(context, output, VOICES[voice], level);
  played[voice] += VOICES[voice].signals;
  return true;
}

/** Looks at the audio's health; to be called on every heartbeat. */
export function checkSound(monotonicMs: number): void {
  if (!context) return;
  // The clock moves in steps of some milliseconds, on a busy phone in larger ones: standing is told by a longer look.
  const runs = context.state === 'running';
  const moved = context.currentTime > lastTime;
  lastTime = context.currentTime;
  if (moved || !runs) movedMs = monotonicMs;
  hasMoved = runs && (hasMoved || moved);
  const stoodMs = monotonicMs - movedMs;
  if (hasMoved && stoodMs < STANDS_MS) {
    sound.value = 'running';
    if (testDue) give('test', 1);
    testDue = false;
    return;
  }
  const hangs = sound.value === 'starting' && monotonicMs - startedMs > STANDS_MS;
  if (sound.value === 'running' || hangs) sound.value = 'broken';
  if (runs && stoodMs > DEAD_MS) {
    void context.close().catch(() => {});
    context = build(monotonicMs);
  }
  // 'suspended' and iOS' 'interrupted' alike; resolves by itself once the phone allows sound again.
  if (!runs) void context.resume().catch(() => {});
}

/** The loudest sample of the last moments, 0..1: what really leaves the page. */
function peak(): number {
  if (!analyser) return 0;
  const samples = new Float32Array(analyser.fftSize);
  analyser.getFloatTimeDomainData(samples);
  return samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
}

/** For tests and the curious; nothing can be changed through it. */
const counters = Object.freeze({
  get state() {
    return sound.value;
  },
  get signalsPlayed() {
    return Object.values(played).reduce((sum, count) => sum + count, 0);
  },
  get played() {
    return { ...played };
  },
  get peak() {
    return peak();
  },
});

declare global {
  interface Window {
    readonly hawseSound: typeof counters;
  }
}

Object.defineProperty(window, 'hawseSound', { value: counters, writable: false, configurable: false });
