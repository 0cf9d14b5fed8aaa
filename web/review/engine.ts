import type { Answers, Ask, Progress, Told } from './messages.ts';

/** The worker, made when it is first needed. */
let worker: Worker | undefined;
let count = 0;
interface Waiting {
  resolve(answer: never): void;
  reject(error: Error): void;
  progress: ((progress: Progress) => void) | undefined;
}
const waiting = new Map<number, Waiting>();

function workerNow(): Worker {
  if (worker) return worker;
  worker = new Worker(new URL('./worker/worker.ts', import.meta.url), { type: 'module' });
  worker.onmessage = ({ data }: MessageEvent<Told>) => {
    const asked = waiting.get(data.number);
    if (!asked) return;
    if ('progress' in data) return asked.progress?.(data.progress);
    waiting.delete(data.number);
    if ('trouble' in data) asked.reject(new Error(data.trouble));
    else asked.resolve(data.answer as never);
  };
  worker.onerror = ({ message }) => {
    // It is gone or was never there: whoever waits is told, and the next one who asks gets another.
    for (const asked of waiting.values())
      asked.reject(new Error(message || 'The engine could not be started here.'));
    waiting.clear();
    worker?.terminate();
    worker = undefined;
  };
  return worker;
}

export interface Asked<T> {
  answer: Promise<T>;
  cancel(): void;
}

/** Asks the engine beside the page. The answer rejects with words, also when it was cancelled. */
export function ask<K extends Ask['do']>(
  what: Extract<Ask, { do: K }>,
  progress?: (progress: Progress) => void,
): Asked<Answers[K]> {
  const number = ++count;
  const answer = new Promise<Answers[K]>((resolve, reject) => {
    waiting.set(number, { resolve: resolve as Waiting['resolve'], reject, progress });
    workerNow().postMessage({ number, ask: what });
  });
  return { answer, cancel: () => worker?.postMessage({ cancel: number }) };
}
