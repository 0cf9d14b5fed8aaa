import { slacksAnswer, slacksRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';

/** Slack waters as a tidal stream table tells them, beside what is measured. */
export function addTidalStream(app: App, desk: Desk): void {
  const tell = {
    summary: 'Tell slack waters of a tidal stream table',
    security: COMMAND_SECURITY,
    body: slacksRequest,
    response: answers(slacksAnswer),
  };
  app.put('/tidal-stream', { schema: tell }, async (request) => {
    await order(desk, { do: 'slacks', tell: request.body.slacks }, request);
    return told(desk);
  });

  const forget = {
    summary: 'Forget the slack waters that were told',
    security: COMMAND_SECURITY,
    response: answers(slacksAnswer),
  };
  app.delete('/tidal-stream', { schema: forget }, async (request) => {
    await order(desk, { do: 'slacks', tell: null }, request);
    return told(desk);
  });
}

function told(desk: Desk) {
  const { streamTurn } = desk.state();
  return streamTurn ? { streamTurn } : {};
}
