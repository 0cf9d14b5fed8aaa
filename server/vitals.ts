import type { EngineState } from '../shared/engine.ts';

/** Is the watch able to see and to remember? Reasons in words when it is not. */
export function health(
  engine: EngineState,
  now: number,
  diskFault: string | undefined,
): { ok: boolean; reasons: string[] } {
  const reasons: string[] = [];
  const last = Math.max(...engine.inputs.map((input) => input.lastAt ?? Number.NEGATIVE_INFINITY));
  if (last === Number.NEGATIVE_INFINITY) reasons.push('no sentence has arrived yet');
  else if (now - last > 10) reasons.push(`no sentence for ${Math.round(now - last)} s`);
  for (const input of engine.inputs)
    if (!input.up) reasons.push(`input ${input.id} is down: ${input.detail}`);
  if (diskFault) reasons.push(`the log cannot be written: ${diskFault}`);
  return { ok: reasons.length === 0, reasons };
}

/** Prometheus text of what the engine counts. */
export function metrics(engine: EngineState, now: number): string {
  const lines = [
    '# HELP hawse_sentences_total Sentences accepted, by input.',
    '# TYPE hawse_sentences_total counter',
    ...engine.inputs.map((input) => `hawse_sentences_total{input="${input.id}"} ${input.sentences}`),
    '# HELP hawse_rejected_total Pieces of lines refused, by input and reason.',
    '# TYPE hawse_rejected_total counter',
    ...engine.inputs.flatMap((input) =>
      Object.entries(input.rejected).map(
        ([reason, count]) => `hawse_rejected_total{input="${input.id}",reason="${reason}"} ${count}`,
      ),
    ),
    '# HELP hawse_input_silence_seconds Seconds since the last good sentence, by input.',
    '# TYPE hawse_input_silence_seconds gauge',
    ...engine.inputs
      .filter((input) => input.lastAt !== undefined)
      .map(
        (input) =>
          `hawse_input_silence_seconds{input="${input.id}"} ${(now - (input.lastAt ?? now)).toFixed(3)}`,
      ),
  ];
  return `${lines.join('\n')}\n`;
}
