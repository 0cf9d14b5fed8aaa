import { spawn } from 'node:child_process';
import { createSocket, type Socket } from 'node:dgram';
import { WebSocket } from 'ws';
import { fix, PORT, post, RATE, UDP, untilUp, wait } from './daemon.ts';
import { realMix } from './engine.ts';
import { jiffies, megabytes } from './process.ts';

export const INPUTS = 6;
const PAGES = 50;
const SENTENCES_A_SECOND = 200;
/** Datagrams of 1 kB that are nothing but noise, a second. */
const NOISE_A_SECOND = 200;

export interface Load {
  alerts: number;
  /** Milliseconds from the datagram that completes an alarm to the page that hears it first, and last. */
  first: { p50: number; p99: number };
  last: { p50: number; p99: number };
  cpuPercent: number;
  /** Megabytes, after the first tenth and at the end, and the slope between by least squares. */
  memory: { begin: number; end: number; slopePerHour: number };
  stalledDropped: boolean;
}

/** 50 pages of which one does not read, 200 sentences a second over six inputs, of which one screams noise; alarms all the while. */
export async function underLoad(rounds: number): Promise<Load> {
  const child = spawn(process.execPath, [process.argv[1]!, 'fast-daemon'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const socket = createSocket('udp4');
  const stops: (() => void)[] = [() => socket.close(), () => child.kill('SIGKILL')];
  try {
    await untilUp();
    const heard = await openPages(stops);
    const stalled = await openStalled(stops);
    feed(socket, stops);
    const memory = watchMemory(child.pid!, stops);
    const before = jiffies(child.pid!);
    const begin = performance.now();
    const delays = await raise(socket, heard, rounds);
    const seconds = (performance.now() - begin) / 1000;
    const cpuPercent = (jiffies(child.pid!) - before) / seconds;
    return {
      alerts: delays.length,
      first: quantiles(delays.map(([first]) => first)),
      last: quantiles(delays.map(([, last]) => last)),
      cpuPercent,
      memory: memory(),
      stalledDropped: stalled(),
    };
  } finally {
    for (const stop of stops.reverse()) stop();
  }
}

/** What pages have heard of the alarm: when, by page. Frames of another kind are not read: this process is no part of the load. */
interface Heard {
  times: number[];
  alarm?: { id: string; state: string };
}

async function openPages(stops: (() => void)[]): Promise<Heard> {
  const heard: Heard = { times: [] };
  const pages = Array.from({ length: PAGES - 1 }, (_, i) => {
    const page = new WebSocket(`ws://127.0.0.1:${PORT}/live?name=page${i}`);
    page.on('message', (data: Buffer) => {
      if (data.toString('latin1', 0, 16) !== '{"type":"event",') return;
      const { event } = JSON.parse(String(data));
      if (event.kind !== 'outside-circle') return;
      heard.alarm = event;
      if (event.state === 'active-unacknowledged') heard.times.push(performance.now());
    });
    return page;
  });
  await Promise.all(pages.map((page) => new Promise((resolve) => page.once('open', resolve))));
  const pulse = JSON.stringify({ type: 'pulse', visible: true, sound: true });
  const pulses = setInterval(() => {
    for (const page of pages) if (page.readyState === page.OPEN) page.send(pulse);
  }, 2000);
  stops.push(() => {
    clearInterval(pulses);
    for (const page of pages) page.terminate();
  });
  return heard;
}

async function openStalled(stops: (() => void)[]): Promise<() => boolean> {
  const page = new WebSocket(`ws://127.0.0.1:${PORT}/live?name=stalled`);
  await new Promise((resolve) => page.once('open', resolve));
  page.pause();
  stops.push(() => page.terminate());
  let dropped = false;
  const look = setInterval(async () => {
    const state = await fetch(`http://127.0.0.1:${PORT}/api/v1/state`)
      .then((answer) => answer.json() as Promise<{ pages: { name: string; silent: boolean }[] }>)
      .catch(() => undefined);
    const seen = state?.pages.find(({ name }) => name === 'stalled');
    if (state && (!seen || seen.silent)) dropped = true;
  }, 5000);
  stops.push(() => clearInterval(look));
  return () => dropped;
}

/** Everything that a boat says beside positions and times, which the alarms are made of. */
function feed(socket: Socket, stops: (() => void)[]): void {
  const mix = realMix().filter(
    ({ text }) => !/^.{3,5}(?:RMC|GGA|GLL|GNS|ZDA|GSA|VTG|VDM|VDO|HDT|HDG|HDM|THS)/.test(text),
  );
  let next = 0;
  const perTick = SENTENCES_A_SECOND / 50;
  const noise = Buffer.alloc(1000);
  const feeder = setInterval(() => {
    for (let i = 0; i < perTick; i++, next++)
      socket.send(`${mix[next % mix.length]!.text}\r\n`, UDP + 1 + (next % (INPUTS - 2)), '127.0.0.1');
    for (let i = 0; i < NOISE_A_SECOND / 50; i++) {
      for (let at = 0; at < noise.length; at++) noise[at] = Math.random() * 256;
      socket.send(Buffer.from(noise), UDP + INPUTS - 1, '127.0.0.1');
    }
  }, 20);
  stops.push(() => clearInterval(feeder));
}

/** Carries the boat out of her circle and in again; from one process, so that one clock tells all. */
async function raise(socket: Socket, heard: Heard, rounds: number): Promise<[number, number][]> {
  const begin = Date.now() / 1000;
  const delays: [number, number][] = [];
  let lastSent = 0;
  let metres = 10;
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
    heard.times = [];
    let sent = 0;
    for (let i = 0; i < 60 && heard.times.length === 0; i++) {
      await send(42);
      if (heard.times.length > 0) sent = lastSent;
    }
    await wait(200);
    if (sent > 0 && heard.times.length >= PAGES - 1)
      delays.push([heard.times[0]! - sent, heard.times.at(-1)! - sent]);
    if (heard.alarm) await post(`/alerts/${heard.alarm.id}/acknowledge`, {});
    for (let i = 0; i < 80 && heard.alarm?.state !== 'normal'; i++) await send(10);
  }
  return delays;
}

function quantiles(values: number[]): { p50: number; p99: number } {
  const sorted = values.sort((a, b) => a - b);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  return { p50: at(0.5), p99: at(0.99) };
}

function watchMemory(pid: number, stops: (() => void)[]): () => Load['memory'] {
  const samples: [number, number][] = [];
  const begin = performance.now();
  const sample = () => {
    samples.push([(performance.now() - begin) / 3.6e6, megabytes(pid)]);
  };
  sample();
  const sampler = setInterval(sample, 2000);
  stops.push(() => clearInterval(sampler));
  return () => {
    sample();
    const late = samples.slice(Math.ceil(samples.length / 10));
    const mean = (pick: (pair: [number, number]) => number) =>
      late.reduce((sum, pair) => sum + pick(pair), 0) / late.length;
    const [t, m] = [mean(([time]) => time), mean(([, size]) => size)];
    const over = late.reduce((sum, [time, size]) => sum + (time - t) * (size - m), 0);
    const under = late.reduce((sum, [time]) => sum + (time - t) ** 2, 0);
    return { begin: late[0]![1], end: late.at(-1)![1], slopePerHour: over / under };
  };
}
