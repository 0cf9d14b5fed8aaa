import type { Command } from '../../../shared/commands.ts';
import { type MarkRequest, markAnswer, markRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';

type How = Extract<Command, { do: 'mark' }>['how'];

export function addMark(app: App, desk: Desk): void {
  const schema = {
    summary: 'Log the drop mark',
    security: COMMAND_SECURITY,
    body: markRequest,
    response: answers(markAnswer),
  };
  app.post('/mark', { schema }, async (request) => {
    const how = howOf(request.body);
    const { mark } = await order(desk, { do: 'mark', how }, request);
    if (!mark) throw new Error('the desk has set a mark and does not tell it');
    return { mark };
  });
}

/** The check of the request has seen to it that members which go together are there together. */
function howOf({ lat, lon, bearing, distance, fromTrack, setBack }: MarkRequest): How {
  if (lat !== undefined && lon !== undefined) return { lat, lon };
  if (bearing !== undefined && distance !== undefined) return { bearing, distance };
  if (setBack) return { setBack };
  return fromTrack ? { fromTrack } : { here: true };
}
