import type { SerialPort } from 'serialport';
import type { Carrier } from './carrier.ts';
import { createLines } from './lines.ts';
import { type Health, within } from './output.ts';
import type { SerialOutput } from './outputs.ts';

const RETRY_MS = 5000;
/** 20 sentences take 3.5 s at 4800 baud; a port that has not taken them by then hangs. */
const WRITE_MS = 10_000;

/** Sentences over a serial port of our own, opened again for as long as it is missing. */
export function createSerialCarrier(
  { path, baud, accept }: Pick<SerialOutput, 'path' | 'baud' | 'accept'>,
  health: Health,
): Carrier {
  let port: SerialPort | undefined;
  let again: NodeJS.Timeout | undefined;
  let isStopped = false;
  let trouble = `${path} is not open yet`;
  let onReady = () => {};
  let onLine = (_line: string) => {};

  async function open(): Promise<void> {
    try {
      // Loaded only when a serial port is wanted, like the inputs do.
      const { SerialPort } = await import('serialport');
      const made = new SerialPort({ path, baudRate: baud, autoOpen: false });
      await called((then) => made.open(then));
      if (isStopped) return made.close();
      made.on('error', () => undefined);
      made.once('close', () => lose(made, `${path} was closed or unplugged`));
      // The port is read even when nobody is obeyed there: that is how an unplugging is noticed.
      const lines = createLines((line) => {
        if (accept) onLine(line);
      });
      made.on('data', lines);
      // As the inputs found: without this an unplugging during a read would go unnoticed, at full processor load.
      if (made.port && 'poller' in made.port)
        made.port.poller.once('disconnect', (error: (Error & { canceled?: boolean }) | null) => {
          if (!error?.canceled && made.isOpen) made.close();
        });
      port = made;
      onReady();
    } catch (error) {
      retry((error as Error).message);
    }
  }

  function lose(lost: SerialPort, why: string): void {
    if (port === lost) port = undefined;
    retry(why);
  }

  function retry(why: string): void {
    if (isStopped) return;
    trouble = why;
    health.failed(why);
    clearTimeout(again);
    again = setTimeout(() => void open(), RETRY_MS);
    again.unref();
  }

  return {
    what: `serial port ${path}`,
    start(ready, hear) {
      onReady = ready;
      onLine = hear;
      void open();
    },
    async send(lines) {
      const open = port;
      if (!open) throw new Error(trouble);
      const written = called(
        (then) => void open.write(lines.join(''), 'latin1', (error) => then(error ?? null)),
      ).then(() => called((then) => open.drain(then)));
      await within(WRITE_MS, written, `${path} takes nothing any more`).catch((error) => {
        if (open.isOpen) open.close();
        throw error;
      });
    },
    async stop() {
      isStopped = true;
      clearTimeout(again);
      const open = port;
      port = undefined;
      if (open?.isOpen)
        await within(
          2000,
          called((then) => open.close(then)),
          'hangs',
        ).catch(() => undefined);
    },
  };
}

function called(work: (then: (error: Error | null) => void) => void): Promise<void> {
  return new Promise((resolve, reject) => work((error) => (error ? reject(error) : resolve())));
}
