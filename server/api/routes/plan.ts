import { z } from 'zod';
import type { App } from '../app.ts';
import type { Desk } from '../desk.ts';
import { answers } from '../documentation.ts';
import { Problem } from '../problem.ts';

/** A plan changes nothing on board, so whoever may look may ask for one. */
export function addPlan(app: App, desk: Desk): void {
  const schema = {
    summary: 'Work out scope, cable and swing circle',
    body: z.looseObject({}),
    response: answers(z.looseObject({})),
  };
  app.post('/plan', { schema }, (request) => {
    if (!desk.plan) throw new Problem('not-built', 'The planner is not built into this version.');
    try {
      return desk.plan(request.body) as Record<string, unknown>;
    } catch (error) {
      if (error instanceof RangeError) throw new Problem('not-valid', error.message);
      throw error;
    }
  });
}
