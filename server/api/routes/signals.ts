import { signalAnswer, signalRequest } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import { order } from '../command.ts';
import type { Desk } from '../desk.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';
import type { Helm } from '../live/helm.ts';
import { Problem } from '../problem.ts';

/** Answers when a helm page has shown the signal, or says after `limitMs` that none has. */
export function addSignals(app: App, desk: Desk, helm: Helm, limitMs: number): void {
  const schema = {
    summary: 'Foredeck to helm; answers when the helm page has shown it',
    security: COMMAND_SECURITY,
    body: signalRequest,
    response: answers(signalAnswer),
  };
  app.post('/signals', { schema }, async (request) => {
    const { signal } = request.body;
    // Listening begins before the order: the helm page may well be quicker than the disk.
    const ear = helm.listen();
    try {
      const { signal: number } = await order(desk, { do: 'signal', signal }, request);
      if (number === undefined) throw new Error('the desk has sent a signal and does not tell its number');
      const shown = await ear.hears(number, limitMs);
      if (shown) return { number, ...(shown.by ? { seenBy: shown.by } : {}) };
      throw new Problem('not-shown', `The helm has not seen "${signal}" (signal ${number}). ${helm.why()}`);
    } finally {
      ear.close();
    }
  });
}
