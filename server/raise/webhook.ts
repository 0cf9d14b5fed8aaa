import { request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';
import type { Alert } from '../../shared/alerts/alert.ts';
import type { Health, Moment, Output } from './output.ts';
import { pause } from './output.ts';
import type { WebhookOutput } from './outputs.ts';

/** Messages that may wait for a slow or absent receiver; the oldest are dropped, and that is a failure. */
const MOST_WAITING = 100;

/** Posts each change of an alert as JSON, one after the other, each tried again after the pauses of the config. */
export function createWebhook(config: WebhookOutput, boat: string, health: Health): Output {
  const told = new Map<string, Alert>();
  const waiting: object[] = [];
  const stop = new AbortController();
  let isPosting = false;

  const post = (message: object) => postTo(config, JSON.stringify(message), stop.signal);

  async function postAll(): Promise<void> {
    if (isPosting) return;
    isPosting = true;
    for (let message = waiting.shift(); message && !stop.signal.aborted; message = waiting.shift()) {
      let why: string | undefined;
      for (const seconds of [0, ...config.retries]) {
        await pause(seconds * 1000);
        if (stop.signal.aborted) break;
        why = await post(message).then(
          () => undefined,
          (error: Error) => error.message,
        );
        if (why === undefined) break;
      }
      if (stop.signal.aborted) break;
      if (why === undefined) health.ok();
      else health.failed(`${why} (tried ${1 + config.retries.length} times)`);
    }
    isPosting = false;
  }

  function say(alert: Alert, at: number): void {
    waiting.push({ boat, at, alert });
    if (waiting.length > MOST_WAITING) {
      waiting.shift();
      health.failed(`more than ${MOST_WAITING} messages wait, the oldest was dropped`);
    }
    void postAll();
  }

  return {
    what: new URL(config.url).host,
    start() {},
    show({ tell }, { alerts, at, clockOffset }: Moment) {
      for (const alert of alerts) {
        const before = told.get(alert.id);
        if (!before && !tell.some(({ id }) => id === alert.id)) continue;
        told.set(alert.id, alert);
        if (before?.state === alert.state && before.priority === alert.priority) continue;
        say(alert, at + clockOffset);
      }
      for (const [id, alert] of told) {
        if (alerts.some((held) => held.id === id)) continue;
        told.delete(id);
        say({ ...alert, state: 'normal', stateSince: at }, at + clockOffset);
      }
    },
    on: () => told.size > 0,
    async test({ at, clockOffset }) {
      try {
        await post({ boat, at: at + clockOffset, test: true });
      } catch (error) {
        health.failed((error as Error).message);
        throw error;
      }
      health.ok();
      return 'It took a test message.';
    },
    async stop() {
      stop.abort();
    },
  };
}

/**
 * One try. Redirections are answers like others, and not followed. Not `fetch`: that keeps connections for later, and after an hour
 * of quiet the first message would go into a dead one.
 */
function postTo({ url, headers, limit }: WebhookOutput, body: string, stop: AbortSignal): Promise<void> {
  const request = url.startsWith('https:') ? httpsRequest : httpRequest;
  const late = AbortSignal.timeout(limit * 1000);
  return new Promise((resolve, reject) => {
    const asked = request(url, {
      method: 'POST',
      agent: false,
      headers: { ...headers, 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) },
      signal: AbortSignal.any([stop, late]),
    });
    asked.on('response', (answer) => {
      const { statusCode = 0, statusMessage = '' } = answer;
      // What it answers is not read: it might have no end.
      answer.destroy();
      if (statusCode >= 200 && statusCode < 300) resolve();
      else reject(new Error(`it answered ${statusCode} ${statusMessage}`.trimEnd()));
    });
    asked.on('error', (error) =>
      reject(late.aborted ? new Error(`it did not answer within ${limit} s`) : error),
    );
    asked.end(body);
  });
}
