import { watchAnswer, watchRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';
import { Problem } from '../problem.ts';

export function addWatch(app: App, desk: Desk): void {
  const schema = {
    summary: 'Change veered length, circle radius, limits',
    security: COMMAND_SECURITY,
    body: watchRequest,
    response: answers(watchAnswer),
  };
  app.patch('/watch', { schema }, async (request) => {
    const { sectors, ...change } = request.body;
    if (sectors !== undefined) {
      throw new Problem(
        'not-built',
        'Sectors are not watched in this version, so nothing of this request was taken over. Allowed: veered, circleRadius, limits.',
      );
    }
    await order(desk, { do: 'watch', change }, request);
    return { watch: desk.state().watch };
  });
}
