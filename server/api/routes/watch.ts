import { watchAnswer, watchRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';

export function addWatch(app: App, desk: Desk): void {
  const schema = {
    summary: 'Change veered length, circle radius, limits, sectors',
    security: COMMAND_SECURITY,
    body: watchRequest,
    response: answers(watchAnswer),
  };
  app.patch('/watch', { schema }, async (request) => {
    await order(desk, { do: 'watch', change: request.body }, request);
    return { watch: desk.state().watch };
  });
}
