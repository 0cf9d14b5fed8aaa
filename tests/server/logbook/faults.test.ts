import { describe, expect, test } from 'vitest';
import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { hostDisk } from '../../../server/journal/disk.ts';
import { createNightKeeper } from '../../../server/logbook/keep.ts';
import { openStore } from '../../../server/logbook/store.ts';
import { createEngine, step } from '../../../shared/engine.ts';
import type { Input } from '../../../shared/input.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { emptyData, START } from './keptNight.ts';

describe('a disk that refuses the logbook', () => {
  test('is told, stops nothing, and when it takes again no sample is missing', async () => {
    const data = emptyData();
    let refuses = false;
    const store = await openStore(data, async (path, bytes) => {
      if (refuses) throw new Error('no space left on device');
      await hostDisk.replace(path, bytes);
    });
    const troubles: (string | undefined)[] = [];
    const nights = await createNightKeeper({
      store,
      version: 'test',
      closed() {},
      trouble: (why) => void troubles.push(why),
    });
    let engine = createEngine({ ...toSettings(commonBoat()), circle: { margin: 6, radius: 60 } });
    let now = START;
    const take = (input: Input) => {
      if (input.kind === 'command') nights.before(engine, input.command);
      const done = step(engine, input);
      engine = done.state;
      nights.heard(engine, input, done.events);
    };
    const live = async (seconds: number) => {
      for (const end = now + seconds; now < end; now++) {
        const clock = new Date(now * 1000).toISOString().slice(11, 19).replaceAll(':', '');
        const text = withChecksum(`GPRMC,${clock}.00,A,3600.02000,S,16330.00000,E,0.0,,251126,,,A`);
        take({ kind: 'line', at: now + 0.1, source: 'bus', text });
      }
      nights.save(engine);
      await nights.settled();
    };
    await live(10);
    take({ kind: 'command', at: now, by: 'Ann', command: { do: 'mark', how: { lat: -36, lon: 163.5 } } });
    await live(120);
    expect(troubles).toEqual([]);
    refuses = true;
    await live(120);
    expect(troubles.at(-1)).toMatch(/no space left on device/);
    expect(nights.now(engine)!.night.summary.upTo).toBeGreaterThan(START + 240);
    refuses = false;
    await live(60);
    expect(troubles.at(-1)).toBeUndefined();
    const { id } = (await store.summaries())[0]!;
    const strips = await store.strips(id);
    expect(strips.map(({ at }) => Math.floor(at / 30) - START / 30)).toEqual(
      Array.from({ length: strips.length }, (_, i) => i + Math.floor(strips[0]!.at / 30) - START / 30),
    );
    expect(strips.at(-1)!.at).toBeGreaterThan(START + 290);
  });
});
