import type { Role } from '../../../shared/access.ts';
import type { Access, AccessPorts } from '../access.ts';
import type { App } from '../app.ts';
import { only } from '../command.ts';
import type { Counters } from '../counters.ts';
import type { Desk } from '../desk.ts';
import type { Helm } from '../live/helm.ts';
import { addAccess, addOwnKey } from './access.ts';
import { addAlerts } from './alerts.ts';
import { addCheck, addCheckOrders } from './check.ts';
import { addConfig, addConfigOrders } from './config.ts';
import { addHealth } from './health.ts';
import { addHorn } from './horn.ts';
import { addMark } from './mark.ts';
import { addMetrics } from './metrics.ts';
import { addNeighbours } from './neighbours.ts';
import { addNightOrders, addNights } from './nights.ts';
import { addPlan } from './plan.ts';
import { addSignals } from './signals.ts';
import { addState } from './state.ts';
import { addTidalStream } from './tidal-stream.ts';
import { addTide } from './tide.ts';
import { addTideStations } from './tide-stations.ts';
import { addTrack } from './track.ts';
import { addWatch } from './watch.ts';
import { addAweigh, addWeigh } from './weigh.ts';

export interface RoutePorts {
  desk: Desk;
  access: Access;
  counters: Counters;
  helm: Helm;
  helmLimitMs: number;
  given: AccessPorts;
  /** What phones open to be paired by that code. */
  pairingAddresses(code: string): string[];
  /** Pages that bore a key that is taken away know no better until they are told. */
  dropKey(id: string): void;
}

/** Every call under /api/v1, by the role that it needs. */
export async function addRoutes(app: App, ports: RoutePorts): Promise<void> {
  const { desk, access, counters, helm, helmLimitMs } = ports;
  await app.register(
    async (api: App) => {
      api.addHook('onRequest', async (_request, reply) => {
        reply.header('cache-control', 'no-store');
      });
      const hide = { hide: true } as object;
      api.get('/openapi.json', { schema: hide }, () => app.swagger());
      addOwnKey(api, ports);

      /** Calls that need a role: one place decides, no call by itself. */
      const group = (needed: Role, add: (calls: App) => void) =>
        api.register(async (calls: App) => {
          calls.addHook('onRequest', only(needed, access));
          add(calls);
        });
      await group('look', (looks) => {
        addState(looks, desk);
        addTrack(looks, desk);
        addHealth(looks, desk);
        addMetrics(looks, desk, counters);
        addPlan(looks, desk);
        addTideStations(looks, desk);
        addNights(looks, desk);
        addCheck(looks, desk);
        addConfig(looks, desk);
      });
      await group('acknowledge', (answers) => addAlerts(answers, desk));
      await group('command', (commands) => {
        addMark(commands, desk);
        addAweigh(commands, desk);
        addWatch(commands, desk);
        addWeigh(commands, desk);
        addCheckOrders(commands, desk);
        addSignals(commands, desk, helm, helmLimitMs);
        addNeighbours(commands, desk);
        addTide(commands, desk);
        addTidalStream(commands, desk);
        addHorn(commands, desk);
        addNightOrders(commands, desk);
        addAccess(commands, ports);
        addConfigOrders(commands, desk);
      });
    },
    { prefix: '/api/v1' },
  );
}
