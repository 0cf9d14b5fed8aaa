import { createSocket } from 'node:dgram';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { startIntakes } from '../../server/intake/manage.ts';
import type { State } from '../../shared/state.ts';
import { recorded } from '../recorded.ts';
import { api, daemonAtHand } from './daemonAtHand.ts';

/** Recorded streams of AIS by UDP through the daemon; what each message says is compared with other decoders in tests/shared/ais. */
test.each(['ais/libais_tagblock.nmea', 'ais/pyais_nmea_data_sample.txt'])('%s by UDP', async (name) => {
  const path = recorded(name);
  if (path === undefined) return;
  let port: number | undefined;
  const daemon = await daemonAtHand({
    settings: toSettings(commonBoat()),
    feeder: (sinks) => {
      const link = (id: string, up: boolean, detail: string) => {
        port ??= Number(/(\d+)\D*$/.exec(detail)?.[1]) || undefined;
        sinks.link(id, up, detail);
      };
      const config = { id: 'udp1', udp: 0, host: '127.0.0.1', checksumOptional: false };
      const intakes = startIntakes([config], { line: sinks.line, link });
      return { stop: async () => void (await Promise.all(intakes.map((intake) => intake.stop()))) };
    },
  });
  try {
    await expect.poll(() => port).toBeDefined();
    const socket = createSocket('udp4');
    const lines = readFileSync(path, 'latin1').split(/\r?\n/).filter(Boolean);
    for (const [i, line] of lines.entries()) {
      await new Promise((sent) => socket.send(`${line}\r\n`, port!, '127.0.0.1', sent));
      if (i % 50 === 49) await new Promise((later) => setTimeout(later, 10));
    }
    socket.close();
    await expect.poll(() => daemon.keeper.engine().neighbours.heard.read).toBeGreaterThan(3);
    const { targets } = daemon.keeper.engine().neighbours;
    expect(targets.length).toBeGreaterThan(1);
    // Views are made every ten seconds of the boat's time.
    await expect
      .poll(async () => ((await (await api(daemon, '/state')).json()) as State).neighbours.length)
      .toBeGreaterThan(0);
    const { neighbours } = (await (await api(daemon, '/state')).json()) as State;
    for (const { place } of neighbours) {
      expect(Math.abs(place.lat) + Math.abs(place.lon)).toBeGreaterThan(0.01);
      expect(Math.abs(place.lat)).toBeLessThanOrEqual(90);
      expect(Math.abs(place.lon)).toBeLessThanOrEqual(180);
    }
    console.log(
      `${name}: ${daemon.keeper.engine().neighbours.heard.read} messages read, ${targets.length} vessels`,
    );
  } finally {
    await daemon.stop('the test is over');
  }
});
