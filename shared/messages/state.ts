import { z } from 'zod';
import { WAKE_LOCKS } from '../phone.ts';
import type { InputView, PageView, State } from '../state.ts';
import { alert } from './alert.ts';
import { checkView, leftView } from './check.ts';
import { leeView } from './lee.ts';
import { neighbourView } from './neighbour.ts';
import { outputView } from './outputs.ts';
import { count, time } from './quantities.ts';
import { same } from './same.ts';
import { soundingsView } from './soundings.ts';
import { streamTurnView } from './tidal-stream.ts';
import { tideView } from './tide.ts';
import { boat, cable, vesselView } from './vessel.ts';
import { watchView } from './watch.ts';
import { weighView } from './weigh.ts';

export const inputView = same<InputView>()(
  z.object({
    id: z.string(),
    up: z.boolean(),
    detail: z.string(),
    sentences: count,
    rejected: z.object({ checksum: count, malformed: count, unknown: count }),
    lastRefusal: z.string().exactOptional(),
    lastAt: time.exactOptional(),
  }),
).meta({ id: 'Input', description: 'One input of sentences and what it has counted' });

export const pageView = same<PageView>()(
  z.object({
    id: z.string(),
    name: z.string(),
    page: z.string(),
    visible: z.boolean(),
    sound: z.boolean(),
    armed: z.boolean().describe('A person counts on it to wake them'),
    wakeLock: z.enum(WAKE_LOCKS).describe('What keeps its screen on'),
    charging: z.boolean().exactOptional(),
    battery: z.number().min(0).max(1).exactOptional(),
    silent: z.boolean().describe('Three of its pulses are missing: it is not watching'),
    mayAnswer: z.boolean().describe('It may acknowledge, and counts as a phone that wakes the crew'),
    lastAt: time,
  }),
).meta({ id: 'Page', description: 'A page that is open somewhere, as its own pulses tell' });

export const state = same<State>()(
  z.object({
    at: time,
    simulated: z.string().describe('Name of the simulated anchorage').exactOptional(),
    report: z.string(),
    boat,
    cable,
    vessel: vesselView,
    watch: watchView,
    weigh: weighView.exactOptional(),
    check: checkView.exactOptional(),
    left: leftView.exactOptional(),
    neighbours: z.array(neighbourView),
    tide: tideView.exactOptional(),
    streamTurn: streamTurnView.exactOptional(),
    lee: leeView.exactOptional(),
    soundings: soundingsView.exactOptional(),
    alerts: z.array(alert),
    inputs: z.array(inputView),
    notes: z.array(z.object({ at: time, text: z.string() })),
    pages: z.array(pageView),
    outputs: z.array(outputView).exactOptional(),
  }),
).meta({ id: 'State', description: 'Everything that a page shows' });
