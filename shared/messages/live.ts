import { z } from 'zod';
import type { Role } from '../access.ts';
import type { Event } from '../events.ts';
import { WAKE_LOCKS } from '../phone.ts';
import type { State } from '../state.ts';
import type { TrackPoint } from '../watch/view.ts';
import { role } from './access.ts';
import { event } from './event.ts';
import { type ProblemDetails, problem } from './problem.ts';
import { count, time } from './quantities.ts';
import { same } from './same.ts';
import { state } from './state.ts';
import { trackPoint } from './watch.ts';

/** Frames of the live socket, `WS /live?since=SEQ&page=PAGE&name=NAME`: JSON text, one message a frame. */

const numbered = { seq: count.describe('Of the latest message'), at: time };

/** Daemon → page. `snapshot`, `pulse` and `refused` carry the `seq` of the latest message, the others one of their own. */
export type ServerMessage = { seq: number; at: number } & (
  | { type: 'snapshot'; state: State; track: TrackPoint[]; mayCommand: boolean; role: Role; bearer?: string }
  | { type: 'update'; set: Partial<State>; unset?: (keyof State)[] }
  | { type: 'track'; append: TrackPoint[] }
  | { type: 'event'; event: Event }
  | { type: 'pulse'; lastFixAge?: number }
  | { type: 'goodbye'; reason: string }
  | { type: 'refused'; problem: ProblemDetails }
);

const exactPartial = z.object({
  at: state.shape.at.exactOptional(),
  simulated: state.shape.simulated,
  report: state.shape.report.exactOptional(),
  boat: state.shape.boat.exactOptional(),
  cable: state.shape.cable.exactOptional(),
  vessel: state.shape.vessel.exactOptional(),
  watch: state.shape.watch.exactOptional(),
  weigh: state.shape.weigh,
  check: state.shape.check,
  left: state.shape.left,
  neighbours: state.shape.neighbours.exactOptional(),
  tide: state.shape.tide,
  streamTurn: state.shape.streamTurn,
  lee: state.shape.lee,
  soundings: state.shape.soundings,
  alerts: state.shape.alerts.exactOptional(),
  inputs: state.shape.inputs.exactOptional(),
  notes: state.shape.notes.exactOptional(),
  pages: state.shape.pages.exactOptional(),
  outputs: state.shape.outputs,
});

export const serverMessage = same<ServerMessage>()(
  z.discriminatedUnion('type', [
    z.object({
      type: z.literal('snapshot'),
      ...numbered,
      state,
      track: z.array(trackPoint),
      mayCommand: z.boolean().describe('The role is command'),
      role: role.describe('What this page may do'),
      bearer: z.string().describe('Name of the key that its browser bears').exactOptional(),
    }),
    z.object({
      type: z.literal('update'),
      ...numbered,
      set: exactPartial.describe('Members of the state that changed, whole'),
      unset: z.array(z.keyof(state)).exactOptional(),
    }),
    z.object({ type: z.literal('track'), ...numbered, append: z.array(trackPoint) }),
    z.object({ type: z.literal('event'), ...numbered, event }),
    z.object({ type: z.literal('pulse'), ...numbered, lastFixAge: z.number().exactOptional() }),
    z.object({ type: z.literal('goodbye'), ...numbered, reason: z.string() }),
    z.object({ type: z.literal('refused'), ...numbered, problem }),
  ]),
).meta({ id: 'ServerMessage' });

/** Page → daemon. */
export const pageMessage = z
  .discriminatedUnion(
    'type',
    [
      z
        .strictObject({
          type: z.literal('pulse'),
          visible: z.boolean(),
          sound: z.boolean(),
          name: z.string().max(200).exactOptional(),
          seq: count.describe('Of the latest message that the page has taken').exactOptional(),
          armed: z.boolean().exactOptional(),
          wakeLock: z.enum(WAKE_LOCKS).exactOptional(),
          charging: z.boolean().exactOptional(),
          battery: z.number().min(0).max(1).exactOptional(),
          phone: z
            .string()
            .regex(/^[0-9a-f]{16}$/)
            .describe('The same whenever this browser comes back')
            .exactOptional(),
        })
        .describe('Every 2 s, by page script'),
      z
        .strictObject({ type: z.literal('shown'), signal: z.int().min(1) })
        .describe('The helm page has shown the signal of this number'),
    ],
    { error: 'expected type "pulse" or "shown"' },
  )
  .meta({ id: 'PageMessage' });

export type PageMessage = z.output<typeof pageMessage>;
