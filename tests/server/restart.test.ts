import { describe, expect, test } from 'vitest';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { Daemon, Sinks } from '../../server/daemon.ts';
import { journalInputs } from '../../server/journal/read.ts';
import { createEngine, step } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import type { State } from '../../shared/state.ts';
import { api, daemonAtHand, emptyFolder, storyOf } from './daemonAtHand.ts';

const settings = { ...toSettings(commonBoat()), circle: { radius: 40, margin: 6 } };
const MARK = { lat: -36, lon: 163.5 };
const RATE = 20;
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** A boat whose distance north of the mark is set by hand; it speaks a fix a second of the daemon's time. */
function handBoat(): { feeder: Parameters<typeof daemonAtHand>[0]['feeder']; metres: number } {
  const boat = {
    metres: 20,
    feeder: (sinks: Sinks, timeline: { now(): number }) => {
      const timer = setInterval(() => {
        const now = new Date(timeline.now() * 1000).toISOString();
        const minutes = ((36 - boat.metres / 110_962) % 1) * 60;
        const clock = now.slice(11, 22).replace(/:/g, '');
        const date = now.slice(2, 10).split('-').reverse().join('');
        const lat = `35${minutes.toFixed(5).padStart(8, '0')}`;
        sinks.line('hand', withChecksum(`GPRMC,${clock},A,${lat},S,16330.00000,E,0.1,,${date},,,A`));
        sinks.line('hand', withChecksum('HEHDT,0.0,T'));
      }, 1000 / RATE);
      return { stop: async () => clearInterval(timer) };
    },
  };
  return boat;
}

const stateOf = async (daemon: Daemon): Promise<State> =>
  (await api(daemon, '/state')).json() as Promise<State>;

async function until(daemon: Daemon, holds: (state: State) => boolean): Promise<State> {
  for (let i = 0; i < 1000; i++, await wait(50)) {
    const state = await stateOf(daemon);
    if (holds(state)) return state;
  }
  throw new Error(`never came: ${JSON.stringify(await stateOf(daemon))}`);
}

describe('the daemon across a restart', () => {
  test('mark, limits, an acknowledged alarm: the same watch goes on', async () => {
    const data = emptyFolder();
    const boat = handBoat();
    let daemon = await daemonAtHand({ settings, data, rate: RATE, feeder: boat.feeder });
    await until(daemon, (state) => state.vessel.roller !== undefined);
    expect((await api(daemon, '/mark', 'POST', MARK)).status).toBe(200);
    expect((await api(daemon, '/watch', 'PATCH', { veered: 30, limits: { windAbove: 12 } })).status).toBe(
      200,
    );
    boat.metres = 60;
    const outside = (state: State) => state.alerts.find(({ kind }) => kind === 'outside-circle');
    const raised = outside(await until(daemon, (state) => outside(state) !== undefined))!;
    expect((await api(daemon, `/alerts/${raised.id}/acknowledge`, 'POST', {})).status).toBe(200);
    const before = await stateOf(daemon);
    await daemon.stop('restart');

    daemon = await daemonAtHand({ settings, data, rate: RATE, feeder: boat.feeder });
    const after = await until(daemon, (state) => state.vessel.roller !== undefined);
    expect(after.watch.mark).toEqual(before.watch.mark);
    expect(after.watch.veered).toBe(30);
    expect(after.watch.limits).toEqual(before.watch.limits);
    expect(outside(after)).toMatchObject({ id: raised.id, state: 'active-acknowledged' });
    await daemon.stop('test over');
  });

  test('the journal of a live run replayed gives the same events to the byte', async () => {
    const data = emptyFolder();
    const boat = handBoat();
    const daemon = await daemonAtHand({ settings, data, rate: RATE, feeder: boat.feeder });
    await until(daemon, (state) => state.vessel.roller !== undefined);
    await api(daemon, '/mark', 'POST', MARK);
    boat.metres = 60;
    await until(daemon, (state) => state.alerts.some(({ kind }) => kind === 'outside-circle'));
    boat.metres = 20;
    await wait(1500);
    const live = daemon.keeper.engine();
    await daemon.stop('test over');

    let engine = createEngine(settings);
    const events: Event[] = [];
    for await (const input of journalInputs(data)) {
      const done = step(engine, input);
      engine = done.state;
      events.push(...done.events);
    }
    engine = step(engine, { kind: 'tick', at: live.now! }).state;
    expect(storyOf(events)).toContain('outside-circle active-unacknowledged');
    expect(JSON.stringify(engine)).toBe(JSON.stringify(live));
  });
});
