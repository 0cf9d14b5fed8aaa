import { loadavg } from 'node:os';
import { fastDaemon } from './daemon.ts';
import { INPUTS, underLoad } from './load.ts';

/** `npm run bench:load [ROUNDS]`. */
if (process.argv[2] === 'fast-daemon') await fastDaemon(INPUTS);
else {
  const rounds = Number(process.argv[2] ?? 100);
  const { alerts, first, last, cpuPercent, memory, stalledDropped } = await underLoad(rounds);
  const say = (name: string, figure: string) => console.log(`${name.padEnd(58)} ${figure}`);
  const ms = ({ p50, p99 }: typeof first) => `p50 ${p50.toFixed(1)}  p99 ${p99.toFixed(1)}`;
  console.log(
    '50 pages, one stalled; 200 sentences/s over six inputs, one of them 200 kB/s of noise; 20 fixes/s, time 20 times as fast',
  );
  say('load of the machine (1 min)', loadavg()[0]!.toFixed(1));
  say(`datagram to alarm, first page, ms (${alerts} of ${rounds} alarms)`, ms(first));
  say('datagram to alarm, last of 49 pages, ms', ms(last));
  say('daemon, % of a core', cpuPercent.toFixed(1));
  say(
    'memory, MB',
    `${memory.begin.toFixed(0)} → ${memory.end.toFixed(0)}, slope ${memory.slopePerHour.toFixed(1)} MB/h`,
  );
  say('the stalled page', stalledDropped ? 'cut off or told as not watching' : 'STILL COUNTED AS WATCHING');
}
