import { audio } from '../sound.ts';
import { armed } from './arming.ts';

/**
 * A tone that the audio thread holds ready and that every heartbeat pushes further into the future. When the page's script
 * stops (it hangs, the browser throttles it to death) nobody pushes, and the tone sounds without any script. It cannot help
 * where the audio stops together with the script: a locked iPhone, a browser that is closed.
 */

/** Seconds without a heartbeat until it sounds: longer than any pause of a healthy page, and than the limit of the link. */
const AHEAD_S = 8;
/** The two pitches of the lost link, since it means the same: this page is not watching. */
const MIDDLE_HZ = 995;
const SWING_HZ = 255;
const CHANGES_HZ = 1.6;
const RISE_S = 15;

let waiting: { parts: OscillatorNode[]; gate: GainNode } | undefined;
let context: AudioContext | undefined;

/** To be called on every heartbeat. */
export function pushDeadman(): void {
  const now = audio();
  if (waiting && context === now?.context) lift();
  waiting = undefined;
  if (!now || !armed.peek() || now.context.state !== 'running') return;
  context = now.context;
  waiting = schedule(now.context, now.output, now.context.currentTime + AHEAD_S);
}

function lift(): void {
  for (const part of waiting?.parts ?? []) {
    part.stop();
    part.disconnect();
  }
  waiting?.gate.disconnect();
}

function schedule(into: BaseAudioContext, output: AudioNode, at: number): typeof waiting {
  const tone = new OscillatorNode(into, { type: 'square', frequency: MIDDLE_HZ });
  const swing = new OscillatorNode(into, { type: 'square', frequency: CHANGES_HZ });
  const width = new GainNode(into, { gain: SWING_HZ });
  const gate = new GainNode(into, { gain: 0.2 });
  gate.gain.setValueAtTime(0.2, at);
  gate.gain.linearRampToValueAtTime(0.7, at + RISE_S);
  swing.connect(width).connect(tone.frequency);
  tone.connect(gate).connect(output);
  tone.start(at);
  swing.start(at);
  return { parts: [tone, swing], gate };
}
