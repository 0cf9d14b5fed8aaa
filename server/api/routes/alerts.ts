import { z } from 'zod';
import { alertAnswer } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { nothing, order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';

const params = z.strictObject({ id: z.string().min(1).describe('As in the state, e.g. outside-circle.3') });

export function addAlerts(app: App, desk: Desk): void {
  for (const act of ['acknowledge', 'silence'] as const) {
    const schema = {
      summary: `${act === 'silence' ? 'Silence' : 'Acknowledge'} an alert`,
      security: COMMAND_SECURITY,
      params,
      body: nothing,
      response: answers(alertAnswer),
    };
    app.post(`/alerts/:id/${act}`, { schema }, async (request) => {
      const { id } = request.params;
      await order(desk, { do: act, alert: id }, request);
      const alert = desk.state().alerts.find((held) => held.id === id);
      // An alert that is not held any more has become normal.
      return { id, state: alert?.state ?? ('normal' as const) };
    });
  }
}
