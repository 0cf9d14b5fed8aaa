import { Counter, collectDefaultMetrics, Gauge, Registry } from 'prom-client';

/** What the api counts of itself, and what Node tells of the process. */
export function createCounters(openSockets: () => number) {
  const register = new Registry();
  const registers = [register];
  collectDefaultMetrics({ register });
  new Gauge({
    name: 'hawse_live_sockets',
    help: 'Pages whose live socket is open.',
    registers,
    collect() {
      this.set(openSockets());
    },
  });
  return {
    register,
    requests: new Counter({
      name: 'hawse_http_requests_total',
      help: 'HTTP requests answered, by method, route and status.',
      labelNames: ['method', 'route', 'status'],
      registers,
    }),
    /** By name of the problem, see problem.ts. */
    refused: new Counter({
      name: 'hawse_refused_requests_total',
      help: 'Requests that were answered with a problem, by kind.',
      labelNames: ['reason'],
      registers,
    }),
    badFrames: new Counter({
      name: 'hawse_bad_frames_total',
      help: 'Frames of pages that were refused, by reason.',
      labelNames: ['reason'],
      registers,
    }),
    droppedSockets: new Counter({
      name: 'hawse_dropped_sockets_total',
      help: 'Live sockets that the daemon closed, by reason.',
      labelNames: ['reason'],
      registers,
    }),
  };
}

export type Counters = ReturnType<typeof createCounters>;
