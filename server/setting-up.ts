import type { ConfigTold } from '../shared/config.ts';
import type { EngineState } from '../shared/engine.ts';
import { createFitting, fitting, observe, type Said, saidOf } from '../shared/fitting/fitting.ts';
import type { Fitting } from '../shared/fitting/view.ts';
import type { Settings } from '../shared/settings.ts';
import { view } from '../shared/vessel/vessel.ts';
import type { DeskConfig } from './api/desk.ts';
import { Problem } from './api/problem.ts';
import { type ConfigFile, ConfigRefused, toldWithoutFile } from './config/open.ts';
import type { Keeper } from './keeper.ts';

/** Seconds for which a comparison is good. */
const KEPT = 30;

interface Ports {
  /** Absent: a rehearsal. */
  file: ConfigFile | undefined;
  engine(): EngineState;
  feed: Keeper['feed'];
}

export interface SetUp extends DeskConfig {
  /** Once a second or more often: the data are laid by for a comparison with the figures that people gave. */
  look(): void;
}

/** hawse.yaml while the watch runs: told, changed, and compared with the data. The comparison begins anew with the daemon. */
export function createSetUp({ file, engine, feed }: Ports): SetUp {
  const collected = createFitting();

  /** Some hundredths of a second for a whole night: not for every page anew. */
  let last: { at: number; settings: Settings; offset: number | undefined; found: Fitting } | undefined;
  function compared(settings: Settings, said: Said): Fitting {
    const at = collected.at ?? 0;
    const isOld =
      !last ||
      at - last.at >= KEPT ||
      at < last.at ||
      last.settings !== settings ||
      last.offset !== said.offset;
    if (isOld) last = { at, settings, offset: said.offset, found: fitting(collected, settings, said) };
    return last!.found;
  }

  const told = async (): Promise<ConfigTold> => {
    const { settings, vessel } = engine();
    const figures = file ? await file.told(settings) : toldWithoutFile(settings);
    return { ...figures, fitting: compared(settings, saidOf(vessel)) };
  };

  return {
    told,
    look() {
      const { vessel, settings, watch, now } = engine();
      if (now === undefined || now - (collected.at ?? 0) < 1) return;
      observe(collected, settings, view(vessel, settings, now), watch.mark);
    },
    async change(set, tryOnly, by) {
      if (!file) throw new Problem('refused', (await told()).why ?? '');
      const { changes, settings } = await file.change(set, tryOnly).catch(refuse);
      if (!tryOnly && changes.length > 0) {
        const what = changes.map(({ key, from, to }) => `${key} ${from ?? 'not set'} → ${to ?? 'not set'}`);
        await feed({ kind: 'settings', settings, note: `${by} changed hawse.yaml: ${what.join(', ')}.` });
      }
      return { done: !tryOnly, changes, config: await told() };
    },
  };
}

/** A fault of what was asked, a refusal, or a disk that fails: each in words. */
function refuse(error: unknown): never {
  const { name, message } = error as Error;
  if (error instanceof ConfigRefused) throw new Problem('refused', message);
  if (name === 'ConfigError') throw new Problem('not-valid', message);
  throw new Problem('not-kept', `The file stays as it was: ${message}`);
}
