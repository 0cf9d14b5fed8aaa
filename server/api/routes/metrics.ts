import { z } from 'zod';
import type { App } from '../app.ts';
import type { Counters } from '../counters.ts';
import type { Desk } from '../desk.ts';
import { PROBLEM_ANSWERS } from '../documentation.ts';

const text = {
  description: 'Prometheus text exposition format 0.0.4',
  content: { 'text/plain': { schema: z.string() } },
};

export function addMetrics(app: App, desk: Desk, { register }: Counters): void {
  const schema = { summary: 'Prometheus text', response: { 200: text, ...PROBLEM_ANSWERS } };
  app.get('/metrics', { schema }, async (_request, reply) => {
    const [own, told] = await Promise.all([register.metrics(), desk.metrics()]);
    return reply
      .type(register.contentType)
      .serializer((payload: unknown) => String(payload))
      .send(`${own}${told}`);
  });
}
