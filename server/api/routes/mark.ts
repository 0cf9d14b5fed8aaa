import { type MarkRequest, markAnswer, markRequest, watchAnswer } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { nothing, order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';
import { Problem } from '../problem.ts';

export function addMark(app: App, desk: Desk): void {
  const schema = {
    summary: 'Log the drop mark',
    security: COMMAND_SECURITY,
    body: markRequest,
    response: answers(markAnswer),
  };
  app.post('/mark', { schema }, async (request) => {
    const how = isHere(request.body) ? { here: true as const } : request.body;
    const { mark } = await order(desk, { do: 'mark', how }, request).catch((error) => {
      // The engine cannot fit the swept arc yet, and says so as of something that is not known.
      const notYet = error instanceof Problem && error.kind === 'unavailable' && 'fromTrack' in how;
      throw notYet ? new Problem('not-built', error.message) : error;
    });
    if (!mark) throw new Error('the desk has set a mark and does not tell it');
    return { mark };
  });
}

const isHere = (told: MarkRequest): told is Record<string, never> => Object.keys(told).length === 0;

export function addAweigh(app: App, desk: Desk): void {
  const schema = {
    summary: 'Anchor off the bottom: close the mark',
    security: COMMAND_SECURITY,
    body: nothing,
    response: answers(watchAnswer),
  };
  app.post('/aweigh', { schema }, async (request) => {
    await order(desk, { do: 'aweigh' }, request);
    return { watch: desk.state().watch };
  });
}
