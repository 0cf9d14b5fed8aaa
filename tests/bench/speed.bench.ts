import { alertLatency, daemonAtSea } from './daemon.ts';
import { decodeBench } from './decode.ts';
import { engineSpeed } from './engine.ts';

/** `npm run bench`: one run prints everything, so that figures can be compared with each other. */
const say = (name: string, figure: string) => console.log(`${name.padEnd(58)} ${figure}`);

console.log(
  'Sentences per second, real boat mix (../shared/recorded/boat-ijsselmeer-2018), medians of interleaved passes',
);
const decoders = decodeBench();
for (const { name, perSecond } of decoders) say(name, Math.round(perSecond).toLocaleString('en'));
say('hawse whole engine (watch on)', Math.round(engineSpeed(15)).toLocaleString('en'));

const latency = await alertLatency();
say(
  'UDP datagram to alert at a socket client, ms',
  `p50 ${latency.p50.toFixed(2)}  p99 ${latency.p99.toFixed(2)}  (${latency.count} alerts)`,
);

const { rssMegabytes, cpuPercent, seconds } = await daemonAtSea();
say(
  `daemon at 20 sentences/s, 4 pages open (${seconds} s)`,
  `RSS ${rssMegabytes.toFixed(0)} MB, ${cpuPercent.toFixed(1)} % of a core`,
);
