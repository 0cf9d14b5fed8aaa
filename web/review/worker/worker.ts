/// <reference lib="webworker" />

import { createHeard, type Heard } from '../../../shared/logbook/heard.ts';
import { reportOf } from '../../../shared/logbook/report/report.ts';
import { type Lived, type Recording, type Rerun, rerun } from '../../../shared/logbook/rerun.ts';
import type { Answers, Ask, Loaded, Progress, Sent, Told } from '../messages.ts';
import { readFile } from './file.ts';
import { createKeyframes, type Keyframes } from './keyframes.ts';
import { fetchRecording } from './recording.ts';

/** The engine beside the page: lives recorded nights again. It knows nothing of the watch that goes on, and tells it nothing. */

declare const self: DedicatedWorkerGlobalScope;

/** Inputs between two looks at the clock, and milliseconds between two words of progress; then others get their turn. */
const AT_A_TIME = 200;
const TOLD_EVERY_MS = 100;
const ORIGIN = { id: 'again', origin: 'import', version: 'page' } as const;

let loaded: { recording: Recording; keyframes: Keyframes; heard: Heard } | undefined;
const stops = new Map<number, AbortController>();

self.onmessage = async ({ data }: MessageEvent<Sent>) => {
  if ('cancel' in data) return stops.get(data.cancel)?.abort();
  const { number, ask } = data;
  const stop = new AbortController();
  stops.set(number, stop);
  const tell = (told: Told) => self.postMessage(told);
  try {
    const answer = await answerTo(ask, stop.signal, (progress) => tell({ number, progress }));
    tell({ number, answer });
  } catch (error) {
    tell({ number, trouble: error instanceof Error ? error.message : String(error) });
  } finally {
    stops.delete(number);
  }
};

async function answerTo(
  ask: Ask,
  stop: AbortSignal,
  progress: (progress: Progress) => void,
): Promise<Answers[keyof Answers]> {
  switch (ask.do) {
    case 'night':
      return load(
        await fetchRecording(
          ask.url,
          stop,
          every((bytes) => progress({ bytes })),
        ),
        [],
        stop,
        progress,
      );
    case 'file': {
      const { recording, notes } = await readFile(
        ask.file,
        ask.told,
        stop,
        every((share) => progress({ share })),
      );
      return load(recording, notes, stop, progress);
    }
    case 'moment':
      if (!loaded) throw new Error('no night is loaded');
      return loaded.keyframes.moment(ask.at);
    case 'what-if':
      if (!loaded) throw new Error('no night is loaded');
      return lived(rerun(loaded.recording, ORIGIN, ask.what, loaded.heard.again()), stop, progress);
    case 'report':
      return reportOf(ask.night, { at: Date.now() / 1000, version: ask.version });
  }
}

/** Words of progress are for eyes: not more often than they see. */
function every<T>(tell: (value: T) => void): (value: T) => void {
  let last = 0;
  return (value) => {
    const now = performance.now();
    if (now - last < TOLD_EVERY_MS) return;
    last = now;
    tell(value);
  };
}

async function load(
  recording: Recording,
  notes: string[],
  stop: AbortSignal,
  progress: (progress: Progress) => void,
): Promise<Loaded> {
  const keyframes = createKeyframes(recording.state, recording.inputs);
  const heard = createHeard(recording.inputs.length);
  const run = rerun(recording, ORIGIN, {}, heard.keeping);
  const made = await lived(run, stop, progress, () => keyframes.pass(run.engine()));
  loaded = { recording, keyframes, heard };
  return { ...made, exact: recording.exact, notes };
}

async function lived(
  run: Rerun,
  stop: AbortSignal,
  progress: (progress: Progress) => void,
  passed: () => void = () => {},
): Promise<Lived> {
  const begun = performance.now();
  let told = begun;
  while (!run.go(AT_A_TIME)) {
    passed();
    const now = performance.now();
    if (now - told < TOLD_EVERY_MS) continue;
    told = now;
    const { share, seconds } = run.progress();
    progress({ share, times: seconds / ((now - begun) / 1000) });
    await new Promise((resolve) => setTimeout(resolve));
    stop.throwIfAborted();
  }
  const { seconds } = run.progress();
  progress({ share: 1, times: seconds / (Math.max(1, performance.now() - begun) / 1000) });
  const made = run.lived();
  if (!made) throw new Error('There is no night in this recording: no mark was set in it.');
  return made;
}
