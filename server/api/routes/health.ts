import { healthAnswer } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import type { Desk } from '../desk.ts';
import { answers } from '../documentation.ts';
import { Problem } from '../problem.ts';

export function addHealth(app: App, desk: Desk): void {
  const schema = {
    summary: 'Do sentences arrive, and is the disk written? 503 with reasons otherwise',
    response: answers(healthAnswer),
  };
  app.get('/health', { schema }, () => {
    const { ok, reasons } = desk.health();
    if (!ok) throw new Problem('not-healthy', `${reasons.join('; ')}.`, { reasons });
    return { ok: true as const, reasons };
  });
}
