import { type ChildProcess, spawn } from 'node:child_process';
import { createSocket } from 'node:dgram';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WebSocket } from 'ws';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { realMix } from './engine.ts';

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const PORT = 18_274;
const UDP = 18_110;

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
    for (let i = 0; i < 100; i++) {
      await wait(100);
      if (
        await fetch(`http://127.0.0.1:${PORT}/api/v1/health`).then(
          () => true,
          () => false,
        )
      )
        break;
    }
    return await work(child);
  } finally {
    child.kill('SIGTERM');
    await new Promise((resolve) => child.once('exit', resolve));
    rmSync(folder, { recursive: true, force: true });
  }
}

const post = (path: string, body: unknown) =>
  fetch(`http://127.0.0.1:${PORT}/api/v1${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

function fixNow(metresNorth: number): string {
  const now = new Date();
  const clock = now.toISOString().slice(11, 22).replace(/:/g, '');
  const date = now.toISOString().slice(2, 10).split('-').reverse().join('');
  const minutes = (60 * metresNorth) / 110_567;
  return withChecksum(
    `GPRMC,${clock},A,00${minutes.toFixed(6).padStart(9, '0')},N,16330.00000,E,0.1,,${date},,,A`,
  );
}

/**
 * Milliseconds from the datagram whose fix completes an alarm (three fixes outside) to the alarm at a socket client. Each round
 * carries the boat out and in again; the clock of this process is the only one used.
 */
export async function alertLatency(rounds = 40): Promise<{ p50: number; p99: number; count: number }> {
  return withDaemon('{ circleRadius: 40 }', async () => {
    const socket = createSocket('udp4');
    const live = new WebSocket(`ws://127.0.0.1:${PORT}/live`);
    let lastSent = 0;
    const delays: number[] = [];
    let active: string | undefined;
    live.on('message', (data) => {
      const message = JSON.parse(String(data));
      if (message.type !== 'event' || message.event.kind !== 'outside-circle') return;
      active = message.event.state === 'normal' ? undefined : message.event.id;
      if (message.event.state === 'active-unacknowledged') delays.push(performance.now() - lastSent);
    });
    await new Promise((resolve) => live.once('open', resolve));
    const send = (metres: number) => {
      lastSent = performance.now();
      socket.send(fixNow(metres), UDP, '127.0.0.1');
    };
    for (let i = 0; i < 5; i++, await wait(250)) send(10);
    await post('/mark', { lat: 0, lon: 163.5 });
    for (let round = 0; round < rounds; round++) {
      const before = delays.length;
      for (let i = 0; i < 40 && delays.length === before; i++, await wait(250)) send(44);
      if (active) await post(`/alerts/${active}/acknowledge`, {});
      for (let i = 0; i < 80 && active; i++, await wait(250)) send(10);
    }
    live.close();
    socket.close();
    delays.sort((a, b) => a - b);
    const at = (share: number) =>
      delays[Math.min(delays.length - 1, Math.floor(share * delays.length))] ?? Number.NaN;
    return { p50: at(0.5), p99: at(0.99), count: delays.length };
  });
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
    const jiffies = () => {
      const fields = readFileSync(`/proc/${child.pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
      return Number(fields[11]) + Number(fields[12]);
    };
    const before = jiffies();
    await wait(seconds * 1000);
    const cpuPercent = (jiffies() - before) / seconds;
    const rss = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'));
    clearInterval(feed);
    clearInterval(pulses);
    for (const page of pages) page.close();
    socket.close();
    return { rssMegabytes: Number(rss?.[1]) / 1024, cpuPercent, seconds };
  });
}
