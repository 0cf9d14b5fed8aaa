import { findRate, hasRightChecksum, RATES } from './baud.ts';
import { createFramer } from './framer.ts';
import { createLink, type Intake, type Sinks } from './input.ts';
import { type OpenPort, openSerialPort } from './serial-port.ts';

export interface SerialOptions {
  id: string;
  /** Device, e.g. /dev/ttyUSB0. */
  serial: string;
  baud: number | 'auto';
  /** How long each rate is listened to, milliseconds. */
  dwell?: number;
  /** Until the next try when the port cannot be had, milliseconds. */
  retry?: number;
  open?: (path: string, baud: number) => Promise<OpenPort>;
}

/** A found rate is looked for again after so many bytes without one right checksum: 17 s of a full line at 4800 baud. */
const DOUBT_AFTER_BYTES = 8192;

/**
 * Sentences from a serial port. A port that cannot be had, or vanishes, is tried again for ever. With baud `auto` the link is up
 * when the rate is found; of what comes while looking for it the readable sentences are passed on, the rest came at a wrong rate.
 */
export function createSerial(options: SerialOptions, sinks: Sinks): Intake {
  const { id, serial, baud, dwell = 2000, retry = 2000, open = openSerialPort } = options;
  const link = createLink(id, sinks);
  let isStopped = false;
  let foundRate: number | undefined;
  let running: Promise<void> | undefined;
  let wake = () => {};
  /** Until woken, or the time is over. */
  const pause = (milliseconds?: number) =>
    new Promise<void>((resolve) => {
      const timer = milliseconds === undefined ? undefined : setTimeout(resolve, milliseconds);
      wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });

  async function run(): Promise<void> {
    while (!isStopped) {
      try {
        const rate = baud === 'auto' ? (foundRate ?? RATES[0]!) : baud;
        const port = await open(serial, rate);
        await keep(port, rate).finally(() => port.close());
      } catch (error) {
        link.tell(false, (error as Error).message);
      }
      if (!isStopped) await pause(retry);
    }
  }

  /** Listens until the port is gone. */
  async function keep(port: OpenPort, openedAt: number): Promise<void> {
    let isOpen = true;
    let rate = openedAt;
    let unreadable = 0;
    let isSought = baud === 'auto';
    let judge = (_line: string) => false;

    const makeFramer = () =>
      createFramer({
        online(line) {
          const isRight = hasRightChecksum(line);
          if (isRight) unreadable = 0;
          if (!isStopped && (isRight || !isSought)) sinks.line(id, line);
          if (isSought && judge(line)) wake();
        },
        onoverlong(bytes) {
          if (!isStopped && !isSought) sinks.overlong(id, bytes);
        },
      });
    let framer = makeFramer();
    port.ondata((chunk) => {
      unreadable += chunk.length;
      framer.push(chunk);
      if (unreadable > DOUBT_AFTER_BYTES && !isSought && baud === 'auto') wake();
    });
    port.onclose((what) => {
      isOpen = false;
      link.tell(false, what);
      wake();
    });
    const isGoing = () => isOpen && !isStopped;
    const setRate = async (wanted: number) => {
      if (wanted === rate) return;
      await port.setRate(wanted);
      rate = wanted;
      framer = makeFramer();
    };

    while (isGoing()) {
      if (baud === 'auto') {
        link.tell(
          false,
          `${serial} is open; looking for its baud rate (${RATES.join(', ')}): no sentence with a right checksum yet`,
        );
        isSought = true;
        const found = await findRate(async (tried, judgement) => {
          if (!isGoing()) return false;
          await setRate(tried);
          judge = judgement;
          await pause(dwell);
          return isGoing();
        }, foundRate);
        if (found === undefined) continue;
        await setRate(found);
        if (!isGoing()) return;
        foundRate = found;
        isSought = false;
        unreadable = 0;
      }
      sinks.rate?.(id, rate);
      link.tell(true, `${serial} is open at ${rate} baud${baud === 'auto' ? ', found by listening' : ''}`);
      while (isGoing() && !(baud === 'auto' && unreadable > DOUBT_AFTER_BYTES)) await pause();
    }
  }

  return {
    id,
    start() {
      running = run();
    },
    async stop() {
      isStopped = true;
      link.mute();
      wake();
      await running;
    },
  };
}
