import { tideAnswer, tideRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';

/** The tide here, as people tell it: by a tide table or by constituents. */
export function addTide(app: App, desk: Desk): void {
  const tell = {
    summary: 'Tell the tide: high and low waters, or constituents',
    security: COMMAND_SECURITY,
    body: tideRequest,
    response: answers(tideAnswer),
  };
  app.put('/tide', { schema: tell }, async (request) => {
    await order(desk, { do: 'tide', tell: request.body }, request);
    return told(desk);
  });

  const forget = {
    summary: 'Forget the tide',
    security: COMMAND_SECURITY,
    response: answers(tideAnswer),
  };
  app.delete('/tide', { schema: forget }, async (request) => {
    await order(desk, { do: 'tide', tell: null }, request);
    return told(desk);
  });
}

function told(desk: Desk) {
  const { tide } = desk.state();
  return tide ? { tide } : {};
}
