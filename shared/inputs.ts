import type { Rejection } from './sentences/decoded.ts';
import type { InputView } from './state.ts';

/** What each input has brought: counted, so that bad input shows. Plain data, few inputs: a list is enough. */
export type InputsState = InputView[];

export const createInputs = (): InputsState => [];

function find(state: InputsState, id: string): InputView {
  for (const input of state) if (input.id === id) return input;
  const made: InputView = {
    id,
    up: true,
    detail: '',
    sentences: 0,
    rejected: { checksum: 0, malformed: 0, unknown: 0 },
  };
  state.push(made);
  return made;
}

/** A good sentence came on input `id` at `at`. */
export function count(state: InputsState, id: string, at: number): void {
  const input = find(state, id);
  input.sentences++;
  input.lastAt = at;
}

/** A piece of a line was refused. */
export function refusedLine(state: InputsState, id: string, reason: Rejection, why: string): void {
  const input = find(state, id);
  input.rejected[reason]++;
  input.lastRefusal = why;
}

/** Input `id` appeared or vanished. */
export function linked(state: InputsState, id: string, up: boolean, detail: string): void {
  const input = find(state, id);
  input.up = up;
  input.detail = detail;
}
