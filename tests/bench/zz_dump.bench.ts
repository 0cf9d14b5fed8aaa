import { writeFileSync } from 'node:fs';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { simulateNight } from '../../server/simulate/night.ts';
import { randomStreams } from '../../server/simulate/random.ts';
import type { Truth } from '../../server/simulate/simulator.ts';
import { localPlane } from '../../shared/earth/local.ts';
import { decode } from '../../shared/sentences/decode.ts';
import { createVessel, hear, pass, view } from '../../shared/vessel/vessel.ts';
import { KINDS } from './drag/kinds.ts';

const [first, last, filter = ''] = process.argv.slice(2);
for (const kind of KINDS.filter(({ name, held }) => `${held ? 'held' : 'drag'} ${name}`.includes(filter)))
  for (let seed = Number(first); seed < Number(last); seed++) {
    const scenario = kind.scenario(seed);
    const common = toSettings(commonBoat());
    const settings = {
      ...common,
      boat: scenario.boat,
      cable: { ...common.cable, ...scenario.cable },
      limits: {},
    };
    const random = randomStreams(seed + 90_000)();
    const mark = localPlane(scenario.start).toLatLon({
      east: 2 * random.normal(),
      north: 2 * random.normal(),
    });
    const vessel = createVessel();
    const rows: unknown[] = [];
    let truth: Truth | undefined;
    let sec = 0;
    for (const item of simulateNight(scenario, seed, kind.hours)) {
      if (item.kind === 'truth') {
        truth = item.truth;
        continue;
      }
      const { at, text } = item.said;
      if (Math.floor(at) > sec) {
        sec = Math.floor(at);
        pass(vessel, settings, sec);
      }
      const d = decode(text, { requireChecksum: true });
      if (!d.ok) continue;
      if (!hear(vessel, settings, d, at, 'sim').fix) continue;
      const v = view(vessel, settings, at);
      if (!v.roller || !truth) continue;
      const anchorPos = truth.hold === 'parted' ? undefined : truth.anchor;
      const gone =
        truth.hold === 'parted'
          ? Math.max(
              0,
              Math.hypot(...Object.values(localPlane(truth.anchor).toLocal(truth.roller))) -
                Math.sqrt(
                  scenario.cable.veered ** 2 - (scenario.seabed.depth + scenario.boat.roller.height) ** 2,
                ),
            )
          : truth.moved;
      const err = localPlane(truth.antenna).toLocal(v.antenna!.value);
      const an = localPlane(scenario.start).toLocal(truth.anchor);
      rows.push([
        at,
        v.roller.value.lat,
        v.roller.value.lon,
        v.depth?.value.surface ?? v.depth?.value.measured,
        v.windGround?.value.speed,
        v.windGround?.value.from,
        v.sog?.value,
        v.cog?.value,
        v.positionDoubt ? 1 : 0,
        v.heading?.value,
        gone,
        truth.load,
        an.east + err.east,
        an.north + err.north,
        v.positionSigma,
      ]);
      void anchorPos;
    }
    writeFileSync(
      `/tmp/nights/${kind.held ? 'held' : 'drag'}-${kind.name.replace(/\W+/g, '_')}-${seed}.json`,
      JSON.stringify({ kind: kind.name, held: kind.held, seed, settings, mark, hours: kind.hours, rows }),
    );
  }
