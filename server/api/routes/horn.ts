import { hornTestAnswer } from '../../../shared/messages/outputs.ts';
import type { App } from '../app.ts';
import { authorOf } from '../author.ts';
import { nothing } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';
import { Problem } from '../problem.ts';

/** Answers when every output has done its test, or failed it: that takes as long as they sound. */
export function addHorn(app: App, desk: Desk): void {
  const schema = {
    summary: 'Test the horn: every way out for alerts does for a moment what it would do in an alarm',
    security: COMMAND_SECURITY,
    body: nothing,
    response: answers(hornTestAnswer),
  };
  app.post('/horn/test', { schema }, async (request) => {
    const outputs = (await desk.testHorn?.(authorOf(request))) ?? [];
    if (outputs.length === 0)
      throw new Problem('unavailable', 'There is no horn: hawse.yaml lists nothing under raise.outputs.');
    return { outputs };
  });
}
