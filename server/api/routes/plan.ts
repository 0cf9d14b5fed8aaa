import { planAnswer, planRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import type { Desk } from '../desk.ts';
import { answers } from '../documentation.ts';
import { Problem } from '../problem.ts';

/** A plan changes nothing on board, so whoever may look may ask for one. */
export function addPlan(app: App, desk: Desk): void {
  const schema = {
    summary: 'Work out how much cable to veer, and what it takes of room and water',
    body: planRequest,
    response: answers(planAnswer),
  };
  app.post('/plan', { schema }, ({ body }) => {
    if (!desk.plan) throw new Problem('not-built', 'The planner is not built into this version.');
    const plan = desk.plan({ ...body, boat: body.boat ?? desk.state().boat });
    if (plan.state === 'plan') return plan;
    const errors = plan.faults.map((detail) => ({ in: 'body' as const, path: '', detail }));
    throw new Problem('not-valid', plan.faults.join(' '), { errors });
  });
}
