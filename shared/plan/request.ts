import { chainOfSize } from '../cable/chain.ts';
import type { Form } from '../cable/loads/form.ts';
import { GUST_FACTOR, SHEER_FACTOR } from '../cable/loads/wind.ts';
import type { Boat } from '../settings.ts';

/** What the planner is asked. Metres, m/s, kg/m, degrees. */
export interface PlanRequest {
  /** Depth now at the place of the anchor, from the surface. */
  depth: number;
  /** How much the water will rise to high water and fall to low water; 0 when left out. */
  riseToHigh?: number;
  fallToLow?: number;
  boat: Form & Pick<Boat, 'roller'> & Partial<Pick<Boat, 'antenna'>>;
  chain: { size: number } | { massPerMetre: number; workingLoad?: number };
  /** On board; left out: as much chain as is needed, and no rope. */
  chainLength?: number;
  ropeLength?: number;
  /** Mean wind to prepare for. */
  wind: number;
  /** Gust over mean wind (1.4) and what sheering adds to the pull (1.5). */
  gustFactor?: number;
  sheerFactor?: number;
  /** Drift of the strongest stream; 0 when left out. */
  stream?: number;
  /** Slope of the bottom, rising from the anchor towards the boat positive; 0 when left out. */
  slope?: number;
  /** Free water round the anchor, to the nearest danger or to another boat's circle. */
  room?: number;
  /** Length the crew has in mind; left out: the planner finds it. */
  veer?: number;
  /** Speed at which she may surge back on her cable, and a snubber of nylon: diameter in mm, length in m. */
  surge?: number;
  snubber?: { diameter: number; length: number };
}

/** The request with everything filled in. */
export interface Task {
  request: PlanRequest;
  /** Roller above the bottom at the anchor, now, at high and at low water. */
  height: { high: number; low: number };
  depthLow: number;
  chain: { massPerMetre: number; workingLoad?: number; source: string };
  gust: number;
  sheer: number;
  stream: number;
  slope: number;
}

/** Checks and completes a request; every fault in words. */
export function toTask(request: PlanRequest): Task | { faults: string[] } {
  const faults: string[] = [];
  const need = (name: string, value: number | undefined, least: number, most: number): number => {
    const read = value ?? Number.NaN;
    if (!(read >= least && read <= most)) {
      faults.push(`${name} is ${value ?? 'missing'}; a number from ${least} to ${most} is needed.`);
    }
    return read;
  };
  const { boat } = request;
  const depth = need('depth', request.depth, 0.5, 200);
  const rise = need('riseToHigh', request.riseToHigh ?? 0, 0, 20);
  const fall = need('fallToLow', request.fallToLow ?? 0, 0, 20);
  const roller = need('boat.roller.height', boat.roller.height, 0, 10);
  need('boat.length', boat.length, 2, 60);
  need('boat.beam', boat.beam, 0.5, 30);
  need('boat.draft', boat.draft, 0.1, 12);
  if (boat.windage.area !== undefined) need('boat.windage.area', boat.windage.area, 0.5, 500);
  if (boat.displacement !== undefined) need('boat.displacement', boat.displacement, 100, 1e6);
  need('wind', request.wind, 0, 80);
  const gust = need('gustFactor', request.gustFactor ?? GUST_FACTOR, 1, 3);
  const sheer = need('sheerFactor', request.sheerFactor ?? SHEER_FACTOR, 1, 5);
  const stream = need('stream', request.stream ?? 0, 0, 6);
  const slope = need('slope', request.slope ?? 0, -30, 30);
  if (request.room !== undefined) need('room', request.room, 0, 5000);
  if (request.veer !== undefined) need('veer', request.veer, 1, 1000);
  if (request.chainLength !== undefined) need('chainLength', request.chainLength, 1, 1000);
  if (request.ropeLength !== undefined) need('ropeLength', request.ropeLength, 0, 1000);
  if (request.ropeLength && request.chainLength === undefined) {
    faults.push('ropeLength is given without chainLength; rope comes after the chain on board.');
  }
  if (request.surge !== undefined) need('surge', request.surge, 0, 5);
  if (request.snubber) {
    need('snubber.diameter', request.snubber.diameter, 4, 60);
    need('snubber.length', request.snubber.length, 0.5, 60);
  }
  const chain = chainOf(request.chain, faults, need);
  if (faults.length === 0 && depth <= fall)
    faults.push('fallToLow is more than the depth: the place dries at low water.');
  if (faults.length > 0 || !chain) return { faults };
  const depthLow = depth - fall;
  return {
    request,
    height: { high: depth + rise + roller, low: depthLow + roller },
    depthLow,
    chain,
    gust,
    sheer,
    stream,
    slope,
  };
}

function chainOf(
  chain: PlanRequest['chain'],
  faults: string[],
  need: (name: string, value: number | undefined, least: number, most: number) => number,
): Task['chain'] | undefined {
  if ('massPerMetre' in chain) {
    const massPerMetre = need('chain.massPerMetre', chain.massPerMetre, 0.05, 50);
    const { workingLoad } = chain;
    if (workingLoad === undefined) return { massPerMetre, source: 'as told' };
    return {
      massPerMetre,
      workingLoad: need('chain.workingLoad', workingLoad, 100, 1e6),
      source: 'as told',
    };
  }
  const found = chainOfSize(chain.size);
  if (!found) {
    faults.push(
      `chain.size is ${chain.size} mm, which is not in the chain table; give massPerMetre instead.`,
    );
    return undefined;
  }
  const { massPerMetre, workingLoad, standard, grade, source } = found;
  return { massPerMetre, workingLoad, source: `${standard} grade ${grade} (${source})` };
}
