import type { Alert } from '../../shared/alerts/alert.ts';
import { type Bulletin, createBulletin } from './bulletin.ts';
import type { Carrier } from './carrier.ts';
import { hearOrders } from './hear.ts';
import { type Health, type Moment, type Output, pause } from './output.ts';
import type { SerialOutput, UdpOutput } from './outputs.ts';

/** Gives a person's order from the bus to the engine; resolves to why not, in words, or undefined. */
export type Obey = (act: 'acknowledge' | 'silence', alert: string, by: string) => Promise<string | undefined>;

export interface BusPorts {
  health: Health;
  obey: Obey;
  /** What came from the bus and could not be followed. */
  remark(text: string): void;
}

const TEST_MS = 2000;
/** Sentences that may wait for a slow port; beyond that the port is told everything anew when it takes something again. */
const MOST_WAITING = 200;
/** Seconds until everything is told again after a failure. */
const WHOLE_AGAIN = 5;

/** Alert sentences on a serial or UDP line, and orders back. */
export function createBus(
  config: SerialOutput | UdpOutput,
  carrier: Carrier,
  { health, obey, remark }: BusPorts,
  testMs = TEST_MS,
): Output {
  const accepts = Boolean(config.accept);
  const bulletin: Bulletin = createBulletin({ ...config, accepts });
  let waiting: string[] = [];
  let isSending = false;
  /** Nothing of what was told may have arrived: tell everything anew. */
  let isWholeDue = false;
  let wholeAt = Number.NEGATIVE_INFINITY;
  let moment: Moment = { alerts: [], at: 0, clockOffset: 0 };

  async function pump(): Promise<void> {
    if (isSending) return;
    isSending = true;
    while (waiting.length > 0) {
      const lines = waiting.splice(0, 20);
      try {
        await carrier.send(lines);
        health.ok();
      } catch (error) {
        health.failed((error as Error).message);
        waiting = [];
        isWholeDue = true;
      }
    }
    isSending = false;
  }

  function say(lines: readonly string[]): void {
    if (lines.length === 0) return;
    if (waiting.length > MOST_WAITING) {
      isWholeDue = true;
      return;
    }
    waiting.push(...lines);
    void pump();
  }

  function hear(line: string): void {
    for (const heard of hearOrders(line, config.manufacturer, moment.alerts)) {
      if (heard.do === 'nothing') remark(`${heard.sentence} ${config.id}: ${heard.why}`);
      else if (heard.do === 'query') for (const id of heard.ids) say(bulletin.again(id, moment.clockOffset));
      else for (const id of heard.ids) void follow(heard.do, id, heard.sentence);
    }
  }

  async function follow(act: 'acknowledge' | 'silence', id: string, sentence: string): Promise<void> {
    const by = `${sentence} ${config.id}`;
    const why = await obey(act, id, by).catch((error: Error) => error.message);
    if (why !== undefined) remark(`${by}: ${why}`);
  }

  return {
    what: carrier.what,
    start: () =>
      carrier.start(() => {
        isWholeDue = true;
      }, hear),
    show({ tell }: { tell: readonly Alert[] }, now: Moment) {
      moment = now;
      say(bulletin.next(tell, now));
      // A port that fails is not to be hammered four times a second.
      if (!isWholeDue || now.at - wholeAt < WHOLE_AGAIN) return;
      isWholeDue = false;
      wholeAt = now.at;
      say(bulletin.whole(now.clockOffset));
    },
    on: bulletin.isTelling,
    async test(now) {
      await carrier.send(bulletin.test(true, now)).catch((error) => {
        health.failed((error as Error).message);
        throw error;
      });
      await pause(testMs);
      await carrier.send(bulletin.test(false, now));
      health.ok();
      return 'Raised a test alert, and ended it.';
    },
    stop: () => carrier.stop(),
  };
}
