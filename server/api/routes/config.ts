import { configAnswer, configChanged, configRequest } from '../../../shared/messages/config.ts';
import type { App } from '../app.ts';
import { authorOf } from '../author.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY, PROBLEM_ANSWERS } from '../documentation.ts';
import { Problem } from '../problem.ts';

/** What hawse.yaml says of boat, cable and watch. Nothing of keys and programs is told. */
export function addConfig(app: App, desk: Desk): void {
  const schema = {
    summary: 'Boat, cable and limits of the watch as hawse.yaml has them, and what the data say of them',
    response: { 200: configAnswer, ...PROBLEM_ANSWERS },
  };
  app.get('/config', { schema }, () => configOf(desk).told());
}

/** Changes hawse.yaml, or only says what a change would do. */
export function addConfigOrders(app: App, desk: Desk): void {
  const schema = {
    summary: 'Change keys of hawse.yaml; comments and order stay. With try: only say what it would do',
    security: COMMAND_SECURITY,
    body: configRequest,
    response: answers(configChanged),
  };
  app.patch('/config', { schema }, (request) => {
    const { set, try: tryOnly = false } = request.body;
    return configOf(desk).change(set, tryOnly, authorOf(request));
  });
}

function configOf({ config }: Desk): NonNullable<Desk['config']> {
  if (!config) throw new Problem('not-built', 'This hawse keeps no configuration.');
  return config;
}
