import type { Input } from '../../../shared/input.ts';
import type { Recording } from '../../../shared/logbook/rerun.ts';

/** Takes in what GET /nights/:id/inputs sends: a checkpoint, then every input, a line each. Rejects with words when that is not it. */
export async function fetchRecording(
  url: string,
  stop: AbortSignal,
  came: (bytes: number) => void,
): Promise<Recording> {
  const answer = await fetch(url, { signal: stop });
  if (!answer.ok || !answer.body) {
    const problem = await answer.json().catch(() => undefined);
    throw new Error(problem?.detail ?? `${answer.status} ${answer.statusText}`);
  }
  let head: Omit<Recording, 'inputs'> | undefined;
  const inputs: Input[] = [];
  let rest = '';
  let bytes = 0;
  const take = (line: string) => {
    if (line === '') return;
    if (head) inputs.push(JSON.parse(line));
    else {
      const { at, exact, state } = JSON.parse(line);
      head = { at, exact, state };
    }
  };
  const decoder = new TextDecoder();
  const reader = answer.body.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (value) {
      bytes += value.length;
      came(bytes);
    }
    const lines = (rest + decoder.decode(value, { stream: !done })).split('\n');
    rest = lines.pop()!;
    lines.forEach(take);
    if (done) break;
  }
  take(rest);
  if (!head?.state) throw new Error('The recorded sentences of this night came without their beginning.');
  return { ...head, inputs };
}
