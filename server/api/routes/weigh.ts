import { watchAnswer, weighAnswer } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { nothing, order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';

export function addWeigh(app: App, desk: Desk): void {
  const start = {
    summary: 'Start the weighing monitor',
    security: COMMAND_SECURITY,
    body: nothing,
    response: answers(weighAnswer),
  };
  app.post('/weigh', { schema: start }, async (request) => {
    await order(desk, { do: 'weigh' }, request);
    const { weigh, watch } = desk.state();
    if (!weigh) throw new Error('the desk weighs and its state does not tell');
    return { weigh, watch };
  });

  const stop = {
    summary: 'Stop the weighing monitor',
    security: COMMAND_SECURITY,
    response: answers(watchAnswer),
  };
  app.delete('/weigh', { schema: stop }, async (request) => {
    await order(desk, { do: 'stop-weighing' }, request);
    return { watch: desk.state().watch };
  });
}
