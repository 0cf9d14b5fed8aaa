import { constants } from 'node:fs';
import { access, readdir, readFile, realpath, stat } from 'node:fs/promises';
import { userInfo } from 'node:os';
import { join } from 'node:path';

/** A serial port of this computer. */
export interface SerialPortHere {
  /** Device, e.g. /dev/ttyUSB0. */
  path: string;
  /** What is plugged in, as its own chip tells it. */
  what?: string;
}

/** Where the system lists its terminals and devices; other places in tests. */
export interface Roots {
  terminals: string;
  dev: string;
  groups: string;
}
const ROOTS: Roots = { terminals: '/sys/class/tty', dev: '/dev', groups: '/etc/group' };

/** Serial ports by name. On Linux from the system's own list, which needs no helper program; elsewhere from the serial library. */
export async function serialPortsHere(roots: Roots = ROOTS): Promise<SerialPortHere[]> {
  const names = await readdir(roots.terminals).catch(() => undefined);
  const found = names === undefined ? await elsewhere() : await onLinux(names, roots);
  return found.sort((a, b) => a.path.localeCompare(b.path, 'en', { numeric: true }));
}

async function onLinux(names: string[], { terminals, dev }: Roots): Promise<SerialPortHere[]> {
  const chips = await chipNames(dev);
  const ports: SerialPortHere[] = [];
  for (const name of names) {
    // Consoles and pseudo terminals have no device behind them.
    if (!(await exists(join(terminals, name, 'device')))) continue;
    // The kernel keeps places for UARTs that are not there: their type is 0 (PORT_UNKNOWN, linux/serial_core.h).
    const type = await readFile(join(terminals, name, 'type'), 'utf8').catch(() => '');
    const path = join(dev, name);
    if (type.trim() === '0' || !(await exists(path))) continue;
    const what = chips.get(path);
    ports.push({ path, ...(what === undefined ? {} : { what }) });
  }
  return ports;
}

/** What udev calls the plugged in chips: usb-FTDI_FT232R_USB_UART_A50285BI-if00-port0. */
async function chipNames(dev: string): Promise<Map<string, string>> {
  const folder = join(dev, 'serial', 'by-id');
  const chips = new Map<string, string>();
  for (const name of await readdir(folder).catch(() => [])) {
    const device = await realpath(join(folder, name)).catch(() => undefined);
    if (device !== undefined)
      chips.set(
        device,
        name
          .replace(/^usb-/, '')
          .replace(/-if\d+.*$/, '')
          .replaceAll('_', ' '),
      );
  }
  return chips;
}

async function elsewhere(): Promise<SerialPortHere[]> {
  try {
    const { SerialPort } = await import('serialport');
    const ports = await SerialPort.list();
    return ports.map(({ path, manufacturer }) => ({ path, ...(manufacturer ? { what: manufacturer } : {}) }));
  } catch {
    return [];
  }
}

/** What is wrong with a device, and what to do about it. */
export interface PortFault {
  text: string;
  cure: string;
}

/** Why this user cannot read and write the device; undefined: nothing stands in the way. */
export async function portFault(path: string, roots: Roots = ROOTS): Promise<PortFault | undefined> {
  const mode = constants.R_OK | constants.W_OK;
  const error = await access(path, mode).then(
    () => undefined,
    (error: NodeJS.ErrnoException) => error,
  );
  if (!error) {
    if ((await stat(path)).isCharacterDevice()) return undefined;
    return { text: `${path} is no serial port`, cure: 'name a device, e.g. /dev/ttyUSB0' };
  }
  if (error.code === 'ENOENT') {
    const others = (await serialPortsHere(roots)).map((port) => port.path);
    return {
      text: `there is no ${path}`,
      cure: `plug it in, or name one that is here: ${others.join(', ') || 'none is'}`,
    };
  }
  if (error.code !== 'EACCES' && error.code !== 'EPERM')
    return { text: `${path}: ${error.message}`, cure: 'look at the device' };
  const groups = await readFile(roots.groups, 'utf8').catch(() => '');
  return denied(path, userInfo().username, (await stat(path)).gid, groups);
}

/** A device of the group `gid` that `user` may not open; `groups` is the text of group(5). Pure. */
export function denied(path: string, user: string, gid: number, groups: string): PortFault {
  const found = groups
    .split('\n')
    .map((line) => line.split(':'))
    .find(([name, , id]) => name && id !== undefined && id !== '' && Number(id) === gid);
  const group = found?.[0] ?? String(gid);
  const isListed = found?.[3]?.split(',').includes(user) ?? false;
  return {
    text: `${path} may not be read and written by the user ${user}: it belongs to the group ${group}`,
    cure: isListed
      ? `${user} is in the group ${group} only since the last log-in: log out and in again`
      : `sudo usermod -aG ${group} ${user}, then log out and in again`,
  };
}

const exists = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  );
