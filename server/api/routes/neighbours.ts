import { z } from 'zod';
import { neighbourRequest, neighboursAnswer } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';

/** Neighbours that AIS does not show: told by the crew, and taken away again. */
export function addNeighbours(app: App, desk: Desk): void {
  const tell = {
    summary: 'Tell a neighbour by range and bearing',
    security: COMMAND_SECURITY,
    body: neighbourRequest,
    response: answers(neighboursAnswer),
  };
  app.post('/neighbours', { schema: tell }, async (request) => {
    await order(desk, { do: 'neighbour', tell: request.body }, request);
    return { neighbours: desk.state().neighbours };
  });

  const away = {
    summary: 'Take away a neighbour that was told by hand',
    security: COMMAND_SECURITY,
    params: z.strictObject({
      id: z.string().regex(/^hand-\d{1,6}$/, 'expected the id of a neighbour told by hand, e.g. hand-1'),
    }),
    response: answers(neighboursAnswer),
  };
  app.delete('/neighbours/:id', { schema: away }, async (request) => {
    await order(desk, { do: 'neighbour', takeAway: request.params.id }, request);
    return { neighbours: desk.state().neighbours };
  });
}
