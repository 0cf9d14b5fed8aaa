import { checkAnswer, checkItemsRequest, checkRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY, PROBLEM_ANSWERS } from '../documentation.ts';

/** The departure check as it stands now. */
export function addCheck(app: App, desk: Desk): void {
  const schema = {
    summary: 'Departure check: what hawse measures, what people have to see, the last check',
    response: { 200: checkAnswer, ...PROBLEM_ANSWERS },
  };
  app.get('/check', { schema }, () => checkOf(desk));
}

/** Somebody has been round; the crew's own list. */
export function addCheckOrders(app: App, desk: Desk): void {
  const done = {
    summary: 'Journal a departure check with what was ticked; it warns and forbids nothing',
    security: COMMAND_SECURITY,
    body: checkRequest,
    response: answers(checkAnswer),
  };
  app.post('/check', { schema: done }, async (request) => {
    await order(desk, { do: 'departure-check', ticked: request.body.ticked }, request);
    return checkOf(desk);
  });

  const items = {
    summary: "Replace the list of the departure check by the crew's own; null: the common one",
    security: COMMAND_SECURITY,
    body: checkItemsRequest,
    response: answers(checkAnswer),
  };
  app.put('/check/items', { schema: items }, async (request) => {
    await order(desk, { do: 'departure-items', items: request.body.items }, request);
    return checkOf(desk);
  });
}

function checkOf(desk: Desk) {
  const { check } = desk.state();
  return check ? { check } : {};
}
