import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { TideTold } from '../../shared/tides/view.ts';
import { harmonicTide } from '../../shared/water/tide/harmonic.ts';

/** A station of the open data set, with the words that its terms ask to be shown. */
export interface TideStation {
  id: string;
  name: string;
  /** Metres from where was asked. */
  distance: number;
  lat: number;
  lon: number;
  licence: string;
  attribution: string;
}

/** What the worker answers with. */
export interface RawStation {
  id: string;
  name: string;
  latitude: number;
  longitude: number;
  kilometres?: number;
  attribution: string;
  license: { type: string; url: string };
  chart_datum?: string;
  datums: Record<string, number>;
  harmonic_constituents: { name: string; amplitude: number; phase: number }[];
}

export type Found<T> = { ok: true; found: T } | { ok: false; why: string };

const PACKAGE = '@neaps/tide-database';
const WITHOUT = `The open data set of tide stations is not installed (npm install ${PACKAGE}). Type in high and low waters instead.`;
const LIMIT_MS = 20_000;

/**
 * Runs beside the watch, since the data set takes a second and a hundred megabytes to open: both go with the worker.
 * Only stations with constituents of their own, as the data set itself accepts them.
 */
const LOOK_UP = `
const { parentPort, workerData } = require('node:worker_threads');
import(workerData.url).then(({ near, stationsById }) => {
  const plain = (station, kilometres) => JSON.parse(JSON.stringify({
    id: station.id, name: station.name, latitude: station.latitude, longitude: station.longitude, kilometres,
    attribution: station.attribution, license: station.license, chart_datum: station.chart_datum, datums: station.datums ?? {},
    harmonic_constituents: station.harmonic_constituents ?? [],
  }));
  const fits = (station) => station.kind === 'tide' && station.type === 'reference';
  if (workerData.id !== undefined) {
    const station = stationsById.get(workerData.id);
    parentPort.postMessage(station && fits(station) ? [plain(station)] : []);
  } else {
    const { lat, lon } = workerData;
    parentPort.postMessage(near({ lat, lon, maxResults: 8, maxDistance: 300, filter: fits }).map(([station, km]) => plain(station, km)));
  }
});`;

/** Each look-up takes a hundred megabytes while it lasts: one at a time, and few that wait, whoever asks. */
const MOST_WAITING = 4;
let waiting = 0;
let turn: Promise<unknown> = Promise.resolve();

function lookUp(asked: { lat: number; lon: number } | { id: string }): Promise<Found<RawStation[]>> {
  if (waiting >= MOST_WAITING)
    return Promise.resolve({
      ok: false,
      why: 'Others ask for tide stations already: try again in a moment.',
    });
  waiting++;
  const mine = turn.then(() => inWorker(asked)).finally(() => waiting--);
  turn = mine;
  return mine;
}

/** Never rejects. */
function inWorker(asked: { lat: number; lon: number } | { id: string }): Promise<Found<RawStation[]>> {
  let url: string;
  try {
    url = pathToFileURL(createRequire(import.meta.url).resolve(PACKAGE)).href;
  } catch {
    return Promise.resolve({ ok: false, why: WITHOUT });
  }
  return new Promise((resolve) => {
    const worker = new Worker(LOOK_UP, { eval: true, workerData: { url, ...asked } });
    const end = (answer: Found<RawStation[]>) => {
      clearTimeout(limit);
      void worker.terminate();
      resolve(answer);
    };
    const limit = setTimeout(
      () => end({ ok: false, why: 'The data set of tide stations does not answer.' }),
      LIMIT_MS,
    );
    worker.once('message', (found: RawStation[]) => end({ ok: true, found }));
    worker.once('error', (error) =>
      end({ ok: false, why: `The data set of tide stations cannot be read: ${error.message}` }),
    );
  });
}

/** The nearest stations within 300 km, nearest first. */
export async function stationsNear(lat: number, lon: number): Promise<Found<TideStation[]>> {
  const answer = await lookUp({ lat, lon });
  if (!answer.ok) return answer;
  return {
    ok: true,
    found: answer.found.map((raw) => ({
      id: raw.id,
      name: raw.name,
      distance: (raw.kilometres ?? 0) * 1000,
      lat: raw.latitude,
      lon: raw.longitude,
      licence: raw.license.type,
      attribution: raw.attribution,
    })),
  };
}

/** The tide of one station, ready to be told: its constituents above chart datum, and its terms. */
export async function tideOfStation(id: string): Promise<Found<TideTold>> {
  const answer = await lookUp({ id });
  if (!answer.ok) return answer;
  const [raw] = answer.found;
  return raw ? toldFrom(raw) : { ok: false, why: `There is no tide station ${id.slice(0, 80)}.` };
}

/** Constituents that cannot be used are left out when they are small, m; a station that hangs on one is refused. */
const SMALL = 0.02;

export function toldFrom(raw: RawStation): Found<TideTold> {
  const { MSL, [raw.chart_datum ?? 'LAT']: datum } = raw.datums;
  if (MSL === undefined || datum === undefined)
    return { ok: false, why: `${raw.name} does not tell its mean level above chart datum.` };
  const constituents: { name: string; amplitude: number; phase: number }[] = [];
  const unknown: string[] = [];
  for (const { name, amplitude, phase } of raw.harmonic_constituents) {
    if (!(amplitude > 0)) continue;
    // Names may be unknown, or two names of one constituent: hawse refuses both, and says which.
    const one = { name, amplitude, phase };
    if (harmonicTide([...constituents, one]).state === 'tide') constituents.push(one);
    else if (amplitude > SMALL) unknown.push(name);
  }
  if (unknown.length > 0)
    return {
      ok: false,
      why: `${raw.name} hangs on constituents that hawse does not know, or has them twice: ${unknown.join(', ')}.`,
    };
  const meanLevel = MSL - datum;
  const whole = harmonicTide(constituents, meanLevel);
  if (whole.state === 'refused') return { ok: false, why: `${raw.name}: ${whole.reason}` };
  return {
    ok: true,
    found: {
      harmonic: { constituents, meanLevel },
      place: raw.name.slice(0, 80),
      source: raw.attribution.slice(0, 400),
      licence: `${raw.license.type} ${raw.license.url}`.slice(0, 200),
    },
  };
}
