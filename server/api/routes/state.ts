import { state } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import type { Desk } from '../desk.ts';
import { answers } from '../documentation.ts';

export function addState(app: App, desk: Desk): void {
  const schema = { summary: 'Latest state of vessel, watch, weigh and alerts', response: answers(state) };
  app.get('/state', { schema }, () => desk.state());
}
