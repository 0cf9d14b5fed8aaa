import { alertLatency, daemonAtSea, fastDaemon } from './daemon.ts';
import { decodeBench } from './decode.ts';
import { engineSpeed } from './engine.ts';

/** `npm run bench`: one run prints everything, so that figures can be compared with each other. */
if (process.argv[2] === 'fast-daemon') await fastDaemon();
else await everything();

async function everything(): Promise<void> {
  const say = (name: string, figure: string) => console.log(`${name.padEnd(58)} ${figure}`);
  console.log('Sentences per second, real boat mix (boat-ijsselmeer-2018), medians of interleaved passes');
  for (const { name, perSecond } of decodeBench()) say(name, Math.round(perSecond).toLocaleString('en'));
  say('hawse whole engine (watch on)', Math.round(engineSpeed(15)).toLocaleString('en'));

  const { p50, p99, count } = await alertLatency();
  say(
    'UDP datagram to alert at a socket client, ms',
    `p50 ${p50.toFixed(2)}  p99 ${p99.toFixed(2)}  (${count} alerts)`,
  );

  const { rssMegabytes, cpuPercent, seconds } = await daemonAtSea();
  const figure = `RSS ${rssMegabytes.toFixed(0)} MB, ${cpuPercent.toFixed(1)} % of a core`;
  say(`daemon at 20 sentences/s, 4 pages open (${seconds} s)`, figure);
}
