import { type ChildProcess, spawn } from 'node:child_process';
import { createSocket } from 'node:dgram';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pino } from 'pino';
import { WebSocket } from 'ws';
import { openAccess } from '../../server/access/open.ts';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { startDaemon } from '../../server/daemon.ts';
import { startIntakes } from '../../server/intake/manage.ts';
import { createTimeline } from '../../server/timeline.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { realMix } from './engine.ts';
import { jiffies, megabytes } from './process.ts';

export const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
export const PORT = 18_274;
export const UDP = 18_110;

/** The built daemon in a process of its own, fed over UDP, as on a boat. */
async function withDaemon<T>(limits: string, work: (child: ChildProcess) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-bench-'));
  const config = join(folder, 'hawse.yaml');
  const boat =
    'boat: { length: 12, draft: 1.9, antenna: { aftOfRoller: 9 }, sounder: { belowWaterline: 0.5 } }';
  writeFileSync(
    config,
    `${boat}\ninstruments: [{ udp: ${UDP}, host: 127.0.0.1 }]\nwatch: ${limits}\nserver: { port: ${PORT}, host: 127.0.0.1 }\n`,
  );
  const child = spawn(
    process.execPath,
    ['dist/server/cli.js', 'keep', '--config', config, '--data', join(folder, 'data')],
    {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, HAWSE_LOG: 'warn' },
    },
  );
  try {
    await untilUp();
    return await work(child);
  } finally {
    child.kill('SIGTERM');
    await new Promise((resolve) => child.once('exit', resolve));
    rmSync(folder, { recursive: true, force: true });
  }
}

export async function untilUp(): Promise<void> {
  for (let i = 0; i < 100; i++) {
    const up = await fetch(`http://127.0.0.1:${PORT}/api/v1/health`).then(
      () => true,
      () => false,
    );
    if (up) return;
    await wait(100);
  }
  throw new Error('the daemon did not come up');
}

export const post = (path: string, body: unknown) =>
  fetch(`http://127.0.0.1:${PORT}/api/v1${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

/** How much faster than the wall clock the daemon of the latency measurement lives: confirmation times pass sooner, nothing else changes. */
export const RATE = 20;
const CIRCLE = 40;

/** The daemon of `alertLatency`, in a process of its own: UDP in, pages out, time at RATE. Runs until it is killed. */
export async function fastDaemon(inputs = 1): Promise<void> {
  const common = toSettings(commonBoat());
  const data = mkdtempSync(join(tmpdir(), 'hawse-bench-'));
  const ring = openAccess(data, { now: () => Date.now() / 1000, note: () => {} });
  const access = { look: 'anyone', thisComputer: 'command', ...ring } as const;
  await startDaemon({
    settings: { ...common, circle: { radius: CIRCLE, margin: 0 } },
    data,
    startTimeline: (notBefore) => createTimeline(Math.max(Date.now() / 1000, notBefore), RATE),
    feeder: (sinks) => {
      const ports = Array.from({ length: inputs }, (_, i) => ({
        id: `udp${i + 1}`,
        udp: UDP + i,
        host: '127.0.0.1',
      }));
      const intakes = startIntakes(ports, sinks);
      return { stop: async () => void (await Promise.all(intakes.map((intake) => intake.stop()))) };
    },
    server: { port: PORT, host: '127.0.0.1', names: [], access, webRoot: resolve('dist/web') },
    log: pino({ level: 'warn' }, pino.destination(2)),
  });
}

/** The boat lies north of the mark and heads north; UTC runs at RATE. */
export function fix(begin: number, metres: number, speedKnots: number): string {
  const utc = new Date((begin + (Date.now() / 1000 - begin) * RATE) * 1000).toISOString();
  const clock = utc.slice(11, 22).replace(/:/g, '');
  const date = utc.slice(2, 10).split('-').reverse().join('');
  const minutes = ((60 * metres) / 110_574).toFixed(6).padStart(9, '0');
  const course = speedKnots < 0 ? 180 : 0;
  const rmc = `GPRMC,${clock},A,00${minutes},N,16330.00000,E,${Math.abs(speedKnots).toFixed(1)},${course}.0,${date},,,A`;
  return `${withChecksum('HEHDT,0.0,T')}\r\n${withChecksum(rmc)}\r\n`;
}

/**
 * Milliseconds from the datagram whose fix completes an alarm (three fixes and four seconds outside the circle) to the alarm at a
 * socket client. Each round carries the boat out and in again; the clock of this process is the only one used.
 */
export async function alertLatency(rounds = 60): Promise<{ p50: number; p99: number; count: number }> {
  const child = spawn(process.execPath, [process.argv[1]!, 'fast-daemon'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  try {
    await untilUp();
    return await measure(rounds);
  } finally {
    child.kill('SIGKILL');
  }
}

async function measure(rounds: number): Promise<{ p50: number; p99: number; count: number }> {
  const socket = createSocket('udp4');
  const live = new WebSocket(`ws://127.0.0.1:${PORT}/live`);
  const begin = Date.now() / 1000;
  const delays: number[] = [];
  let lastSent = 0;
  let alarm: { id: string; state: string } | undefined;
  live.on('message', (data) => {
    const heard = performance.now();
    const message = JSON.parse(String(data));
    if (message.type !== 'event' || message.event.kind !== 'outside-circle') return;
    alarm = message.event;
    if (message.event.state === 'active-unacknowledged') delays.push(heard - lastSent);
  });
  await new Promise((resolve) => live.once('open', resolve));
  let metres = 10;
  /** One fix: a second of the daemon's time, 5 m at most on the way to where she shall be. */
  const send = async (towards: number) => {
    const step = Math.max(-5, Math.min(5, towards - metres));
    metres += step;
    lastSent = performance.now();
    socket.send(fix(begin, metres, step / 0.5144), UDP, '127.0.0.1');
    await wait(1000 / RATE);
  };
  for (let i = 0; i < 10; i++) await send(10);
  await post('/mark', { lat: 0, lon: 163.5 });
  for (let round = 0; round < rounds; round++) {
    const before = delays.length;
    for (let i = 0; i < 60 && delays.length === before; i++) await send(42);
    if (alarm) await post(`/alerts/${alarm.id}/acknowledge`, {});
    for (let i = 0; i < 80 && alarm?.state !== 'normal'; i++) await send(10);
  }
  live.close();
  socket.close();
  delays.sort((a, b) => a - b);
  const at = (share: number) =>
    delays[Math.min(delays.length - 1, Math.floor(share * delays.length))] ?? Number.NaN;
  return { p50: at(0.5), p99: at(0.99), count: delays.length };
}

/** Memory and processor time of the daemon at 20 real sentences a second with four pages' sockets open. */
export async function daemonAtSea(
  seconds = 30,
): Promise<{ rssMegabytes: number; cpuPercent: number; seconds: number }> {
  return withDaemon('{}', async (child) => {
    const pages = Array.from({ length: 4 }, () => new WebSocket(`ws://127.0.0.1:${PORT}/live`));
    const pulses = setInterval(() => {
      for (const page of pages)
        if (page.readyState === 1) page.send(JSON.stringify({ type: 'pulse', visible: true, sound: true }));
    }, 2000);
    const socket = createSocket('udp4');
    const mix = realMix();
    let next = 0;
    const feed = setInterval(() => socket.send(mix[next++ % mix.length]!.text, UDP, '127.0.0.1'), 50);
    await wait(5000);
    await post('/mark', { lat: 52.85, lon: 5.31 });
    const before = jiffies(child.pid!);
    await wait(seconds * 1000);
    const cpuPercent = (jiffies(child.pid!) - before) / seconds;
    const rssMegabytes = megabytes(child.pid!);
    clearInterval(feed);
    clearInterval(pulses);
    for (const page of pages) page.close();
    socket.close();
    return { rssMegabytes, cpuPercent, seconds };
  });
}
