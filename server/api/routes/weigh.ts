import { holdWindRequest, takenBackAnswer, watchAnswer, weighAnswer } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { nothing, order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';
import { Problem } from '../problem.ts';

export function addWeigh(app: App, desk: Desk): void {
  const start = {
    summary: 'Start the weighing monitor',
    security: COMMAND_SECURITY,
    body: nothing,
    response: answers(weighAnswer),
  };
  app.post('/weigh', { schema: start }, async (request) => {
    await order(desk, { do: 'weigh' }, request);
    return weighing(desk);
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

  const hold = {
    summary: 'Mark the apparent wind angle that the helm holds: the present one, another, or none any more',
    security: COMMAND_SECURITY,
    body: holdWindRequest.nullish(),
    response: answers(weighAnswer),
  };
  app.post('/weigh/hold-wind', { schema: hold }, async (request) => {
    await order(desk, { do: 'hold-wind', ...request.body }, request);
    return weighing(desk);
  });
}

/** "Aweigh" and its undoing; they make sense also when nobody has started the weighing monitor. */
export function addAweigh(app: App, desk: Desk): void {
  const close = {
    summary: 'Anchor off the bottom: close the mark',
    security: COMMAND_SECURITY,
    body: nothing,
    response: answers(watchAnswer),
  };
  app.post('/weigh/aweigh', { schema: close }, async (request) => {
    await order(desk, { do: 'aweigh' }, request);
    return { watch: desk.state().watch };
  });

  const takeBack = {
    summary: 'Take a mistaken "aweigh" back: mark and weighing monitor are as they were',
    security: COMMAND_SECURITY,
    body: nothing,
    response: answers(takenBackAnswer),
  };
  app.post('/weigh/undo-aweigh', { schema: takeBack }, async (request) => {
    await order(desk, { do: 'undo-aweigh' }, request);
    const { weigh, watch } = desk.state();
    return { watch, ...(weigh ? { weigh } : {}) };
  });
}

function weighing(desk: Desk) {
  const { weigh, watch } = desk.state();
  // Somebody else's order may have come in between.
  if (!weigh)
    throw new Problem('refused', 'Weighing was on, and was ended by somebody else in the same moment.');
  return { weigh, watch };
}
