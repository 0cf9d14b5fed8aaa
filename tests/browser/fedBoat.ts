import { createSocket } from 'node:dgram';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dateParts, position, sentence, timeOfDay } from '../../server/simulate/encode.ts';
import { destination } from '../../shared/earth/geodesic.ts';
import type { Boat } from './fakeBoat.ts';
import { startDaemon } from './realBoat.ts';

/** An invented boat whose instruments a test plays: the daemon itself hears their sentences by UDP. */
export interface FedBoat extends Boat {
  /** Metres from anchor to roller, the anchor bearing north, and how fast the test brings her up, m/s. */
  metres: number;
  approach: number;
}

export const ANCHOR = { lat: -36, lon: 163.5 };
/** Antenna aft of the roller. */
const ANTENNA = 9;
const FEED_MS = 250;

const config = (port: number): string => `
boat: { name: Sandpiper, length: 12 m, draft: 1.9 m, antenna: { aftOfRoller: ${ANTENNA} m }, roller: { height: 1.4 m }, sounder: { belowWaterline: 0.5 m } }
cable: { size: 10 mm, veered: 30 m, marks: [{ at: 10, what: red }, { at: 20, what: yellow }, { at: 30, what: blue }] }
instruments: [{ udp: ${port}, host: 127.0.0.1 }]
`;

export async function startFedBoat(): Promise<FedBoat> {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-fed-'));
  const port = await freePort();
  const file = join(folder, 'hawse.yaml');
  writeFileSync(file, config(port));
  const daemon = await startDaemon('keep', '--alone', '--config', file);
  const socket = createSocket('udp4');
  const boat: FedBoat = {
    url: daemon.url,
    metres: 24,
    approach: 0,
    async stop() {
      clearInterval(timer);
      socket.close();
      await daemon.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
  const timer = setInterval(() => {
    boat.metres = Math.max(0.5, boat.metres - (boat.approach * FEED_MS) / 1000);
    socket.send(`${instruments(boat.metres, boat.approach, Date.now() / 1000)}\r\n`, port, '127.0.0.1');
  }, FEED_MS);
  return boat;
}

/** Bow north, wind 12 kn from 10° on the starboard bow, 6 m of water, the log as fast as she comes up. */
function instruments(metres: number, speed: number, at: number): string {
  const knots = ((speed * 3600) / 1852).toFixed(2);
  const [day, month, year] = dateParts(at);
  const antenna = position(destination(ANCHOR, 180, metres + ANTENNA), 5);
  return [
    sentence('HE', 'HDT', ['0.0', 'T']),
    sentence('WI', 'MWV', ['10.0', 'R', '12.0', 'N', 'A']),
    sentence('SD', 'DPT', ['5.5', '0.5']),
    sentence('VW', 'VHW', [undefined, 'T', undefined, 'M', knots, 'N', undefined, 'K']),
    sentence('GP', 'RMC', [
      timeOfDay(at),
      'A',
      ...antenna,
      knots,
      '0.0',
      `${day}${month}${year.slice(-2)}`,
      undefined,
      undefined,
      'A',
    ]),
  ].join('\r\n');
}

async function freePort(): Promise<number> {
  const probe = createSocket('udp4');
  await new Promise<void>((resolve) => probe.bind(0, '127.0.0.1', resolve));
  const { port } = probe.address();
  await new Promise<void>((resolve) => probe.close(() => resolve()));
  return port;
}
