import { createSocket } from 'node:dgram';
import { readFileSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { createServer, type Socket } from 'node:net';
import { beforeAll, describe, expect, test } from 'vitest';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { IntakeConfig } from '../../server/intake/manage.ts';
import { startIntakes } from '../../server/intake/manage.ts';
import { replay } from '../../server/replay.ts';
import { distanceBearing } from '../../shared/earth/geodesic.ts';
import type { Event } from '../../shared/events.ts';
import type { TrackPoint } from '../../shared/watch/view.ts';
import { recorded } from '../recorded.ts';
import { api, daemonAtHand } from './daemonAtHand.ts';
import { ptyPair } from './intake/pty.ts';
import { until } from './raise/help.ts';

/**
 * A real boat's log (IJsselmeer 2018, 143 s, under way: she leaves any circle) by every way in: the same distances and alerts as
 * in replay.
 */
const LOG = recorded('boat-ijsselmeer-2018/ijsselmeer.nmea');
const SECONDS = 143;
/** Seconds of the daemon's time between two pieces of the log. */
const STEP = 0.25;
const MARK = { lat: 52.8501, lon: 5.3136 };
const settings = { ...toSettings(commonBoat()), circle: { radius: 52, margin: 6 } };

interface Story {
  raised: string[];
  track: TrackPoint[];
}

const raisedIn = (events: Event[]): string[] => [
  ...new Set(
    events.flatMap((event) =>
      event.event === 'alert' && event.state === 'active-unacknowledged' ? [event.kind] : [],
    ),
  ),
];

/**
 * Runs the daemon on one input while `write` brings the log, and tells what it made of it. The daemon's time goes on only when all
 * that was written before has been read: so what came when does not hang on how busy this computer is.
 */
async function live(config: IntakeConfig, write: (text: string) => unknown): Promise<Story> {
  let seconds = 0;
  let sent = 0;
  let heard = 0;
  let allRead: () => void = () => {};
  let up: () => void = () => {};
  const ready = new Promise<void>((resolve) => {
    up = resolve;
  });
  const daemon = await daemonAtHand({
    settings,
    start: Date.UTC(2018, 7, 20, 9, 47, 36) / 1000,
    clock: { monotonic: () => seconds },
    feeder: (sinks) => {
      const link = (id: string, isUp: boolean, detail: string) => {
        if (isUp) up();
        sinks.link(id, isUp, detail);
      };
      const line = (...read: Parameters<typeof sinks.line>) => {
        sinks.line(...read);
        if (++heard >= sent) allRead();
      };
      const intakes = startIntakes([config], { line, link });
      return { stop: async () => void (await Promise.all(intakes.map((intake) => intake.stop()))) };
    },
  });
  try {
    await ready;
    expect((await api(daemon, '/mark', 'POST', MARK)).status).toBe(200);
    const lines = readFileSync(LOG!, 'latin1')
      .split(/(?<=\n)/)
      .filter((line) => line.trim());
    while (sent < lines.length) {
      seconds += STEP;
      const from = sent;
      sent = Math.min(lines.length, Math.ceil((lines.length * seconds) / SECONDS));
      const read = new Promise<void>((resolve) => {
        allRead = resolve;
      });
      await write(lines.slice(from, sent).join(''));
      await read;
    }
    const track = (await (await api(daemon, '/track')).json()) as TrackPoint[] | { track: TrackPoint[] };
    const { alerts } = (await (await api(daemon, '/state')).json()) as {
      alerts: { kind: string; state: string }[];
    };
    const raised = alerts.filter(({ state }) => state === 'active-unacknowledged').map(({ kind }) => kind);
    return { raised: [...new Set(raised)], track: Array.isArray(track) ? track : track.track };
  } finally {
    await daemon.stop('test over');
  }
}

const distances = (track: TrackPoint[]): number[] =>
  track.map((point) => distanceBearing(point, MARK).distance);

describe('the same log by every way in', () => {
  let expected: Story;
  beforeAll(async () => {
    if (!LOG) return;
    const events: Event[] = [];
    const anchorage = {
      boat: {},
      cable: { veered: 42 },
      mark: MARK,
      circle: { radius: 52 },
      limits: {},
    };
    const { engine } = await replay([LOG], settings, anchorage, (event) => events.push(event));
    expected = {
      raised: raisedIn(events).filter((kind) => kind.endsWith('circle')),
      track: engine.watch.track,
    };
    expect(expected.track.length).toBeGreaterThan(100);
    expect(expected.raised).toEqual(['outside-circle']);
  });

  /** To the micrometre the same distances; a few at the start hang on whether the first heading came before the first fix. */
  function same(story: Story): void {
    expect(story.raised).toContain('outside-circle');
    const live = distances(story.track).map((metres) => metres.toFixed(6));
    const wanted = distances(expected.track).map((metres) => metres.toFixed(6));
    expect(live.filter((metres) => !wanted.includes(metres)).length).toBeLessThan(5);
    expect(wanted.filter((metres) => !live.includes(metres)).length).toBeLessThan(5);
    expect(live.length).toBeGreaterThan(100);
    expect(live.at(-1)).toBe(wanted.at(-1));
  }

  test.runIf(LOG).concurrent('UDP', async () => {
    const probe = createSocket('udp4');
    await new Promise<void>((resolve) => probe.bind(0, '127.0.0.1', resolve));
    const port = probe.address().port;
    await new Promise<void>((resolve) => probe.close(() => resolve()));
    const sender = createSocket('udp4');
    same(
      await live({ id: 'udp1', udp: port, host: '127.0.0.1' }, (text) => {
        for (let from = 0; from < text.length; ) {
          const cut = text.length - from <= 1400 ? text.length : text.lastIndexOf('\n', from + 1400) + 1;
          sender.send(Buffer.from(text.slice(from, cut), 'latin1'), port, '127.0.0.1');
          from = cut;
        }
      }),
    );
    sender.close();
  });

  test.runIf(LOG).concurrent('TCP', async () => {
    let client: Socket | undefined;
    const server = createServer((socket) => {
      client = socket;
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as { port: number };
    same(
      await live({ id: 'tcp1', tcp: `127.0.0.1:${port}` }, async (text) => {
        await until(() => client !== undefined);
        client!.write(text, 'latin1');
      }),
    );
    client?.destroy();
    server.close();
  });

  test.runIf(LOG).concurrent('a serial port (pty pair)', async () => {
    const pair = await ptyPair();
    if (!pair) return;
    const other = await open(pair.other, 'w');
    const write = async (text: string) => {
      await other.write(Buffer.from(text, 'latin1'));
    };
    same(await live({ id: 'serial1', serial: pair.device, baud: 38_400 }, write));
    await other.close();
    await pair.close();
  });
});
