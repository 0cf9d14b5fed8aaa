import type { Access } from '../access.ts';
import type { App } from '../app.ts';
import { commandersOnly } from '../command.ts';
import type { Counters } from '../counters.ts';
import type { Desk } from '../desk.ts';
import type { Helm } from '../live/helm.ts';
import { addAlerts } from './alerts.ts';
import { addHealth } from './health.ts';
import { addMark } from './mark.ts';
import { addMetrics } from './metrics.ts';
import { addNeighbours } from './neighbours.ts';
import { addNights } from './nights.ts';
import { addPlan } from './plan.ts';
import { addSignals } from './signals.ts';
import { addState } from './state.ts';
import { addTrack } from './track.ts';
import { addWatch } from './watch.ts';
import { addAweigh, addWeigh } from './weigh.ts';

export interface RoutePorts {
  desk: Desk;
  access: Access;
  counters: Counters;
  helm: Helm;
  helmLimitMs: number;
}

/** Every call under /api/v1: those that look, and those that command. */
export async function addRoutes(app: App, ports: RoutePorts): Promise<void> {
  const { desk, access, counters, helm, helmLimitMs } = ports;
  await app.register(
    async (api: App) => {
      api.addHook('onRequest', async (_request, reply) => {
        reply.header('cache-control', 'no-store');
      });
      addState(api, desk);
      addTrack(api, desk);
      addHealth(api, desk);
      addMetrics(api, desk, counters);
      addPlan(api, desk);
      addNights(api);
      const hide = { hide: true } as object;
      api.get('/openapi.json', { schema: hide }, () => app.swagger());

      await api.register(async (commands: App) => {
        commands.addHook('onRequest', commandersOnly(access));
        addMark(commands, desk);
        addWatch(commands, desk);
        addWeigh(commands, desk);
        addAweigh(commands, desk);
        addSignals(commands, desk, helm, helmLimitMs);
        addNeighbours(commands, desk);
        addAlerts(commands, desk);
      });
    },
    { prefix: '/api/v1' },
  );
}
