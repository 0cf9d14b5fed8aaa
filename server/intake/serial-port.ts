/** What is asked of an open serial port. */
export interface OpenPort {
  ondata(take: (chunk: Buffer) => void): void;
  /** Told once when the port is closed or has vanished, with what happened in words. */
  onclose(take: (what: string) => void): void;
  setRate(baud: number): Promise<void>;
  /** Resolves when the port is closed, or was before. */
  close(): Promise<void>;
}

/** Opens a serial port, 8 data bits, no parity, 1 stop bit (IEC 61162-1), for this program alone. Rejects with what is wrong in words. */
export async function openSerialPort(path: string, baudRate: number): Promise<OpenPort> {
  // Loaded only when a serial port is wanted: a computer for which there is no binary of it can still listen to the network.
  const { SerialPort } = await import('serialport');
  const port = new SerialPort({ path, baudRate, autoOpen: false });
  await called((then) => port.open(then)).catch((error: Error) => {
    throw new Error(describe(path, error.message));
  });
  let fault: string | undefined;
  let isUnplugged = false;
  port.on('error', (error) => {
    fault = error.message;
  });
  // The library learns that the device is gone only while it waits for data: when that happens during a read, each read gives
  // nothing, and it reads again for ever, at full processor load and without a word (seen with serialport 13.0).
  if (port.port && 'poller' in port.port)
    port.port.poller.once('disconnect', (error: (Error & { canceled?: boolean }) | null) => {
      if (error?.canceled) return;
      isUnplugged = true;
      if (port.isOpen) port.close();
    });
  return {
    ondata: (take) => void port.on('data', take),
    onclose(take) {
      port.once('close', (error?: Error & { disconnected?: boolean }) => {
        const reason = fault ?? error?.message;
        if (isUnplugged || error?.disconnected) take(`${path} was unplugged`);
        else take(`${path} was closed${reason ? `: ${reason}` : ''}`);
      });
    },
    async setRate(baud) {
      await called((then) => port.update({ baudRate: baud }, then));
      await called((then) => port.flush(then));
    },
    close: () => new Promise((resolve) => (port.isOpen ? port.close(() => resolve()) : resolve())),
  };
}

function called(work: (then: (error: Error | null) => void) => void): Promise<void> {
  return new Promise((resolve, reject) => work((error) => (error ? reject(error) : resolve())));
}

/** The library tells why it could not open the port only as text. */
function describe(path: string, message: string): string {
  if (/No such file/i.test(message)) return `there is no ${path}: is it plugged in?`;
  if (/Permission denied/i.test(message))
    return `${path} may not be read by this user: add the user to the group that owns it (dialout on Debian)`;
  if (/Cannot lock/i.test(message)) return `${path} is in use by another program`;
  return `${path}: ${message.replace(/^Error:? */, '')}`;
}
