import { z } from 'zod';
import type { App } from '../app.ts';
import { PROBLEM_ANSWERS } from '../documentation.ts';
import { Problem } from '../problem.ts';

export function addNights(app: App): void {
  const summary = 'The logbook (not built in this version: 501)';
  const notBuilt = (): never => {
    throw new Problem(
      'not-built',
      'The logbook cannot be read over HTTP in this version. The sentences are kept: see "hawse replay".',
    );
  };
  app.get('/nights', { schema: { summary, response: PROBLEM_ANSWERS } }, notBuilt);
  const params = z.strictObject({ id: z.string().min(1) });
  app.get('/nights/:id', { schema: { summary, params, response: PROBLEM_ANSWERS } }, notBuilt);
}
