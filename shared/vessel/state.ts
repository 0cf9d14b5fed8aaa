import type { Observation } from '../sentences/observation.ts';
import { type Channel, createChannel } from './channel.ts';
import type { DepthSaid } from './depth.ts';
import type { HeadingSaid } from './heading.ts';
import type { MotionSaid } from './motion.ts';
import { createPosition, type PositionState } from './position.ts';
import type { Receiver } from './receivers.ts';
import { createTime, type TimeState } from './time.ts';
import { createVariation, type VariationState } from './variation.ts';
import type { ApparentWindSaid, GroundWindSaid } from './wind.ts';

type WaterSpeedSaid = Extract<Observation, { kind: 'water-speed' }>;
type StreamSaid = Extract<Observation, { kind: 'stream' }>;
type TemperatureSaid = Extract<Observation, { kind: 'water-temperature' }>;

/** Everything that the room remembers: plain JSON data. Channels keep the last good observation of each of their sources. */
export interface VesselState {
  position: PositionState;
  receivers: Receiver[];
  time: TimeState;
  motion: Channel<MotionSaid>;
  heading: Channel<HeadingSaid>;
  variation: VariationState;
  windApparent: Channel<ApparentWindSaid>;
  windGround: Channel<GroundWindSaid>;
  depth: Channel<DepthSaid>;
  waterSpeed: Channel<WaterSpeedSaid>;
  stream: Channel<StreamSaid>;
  waterTemperature: Channel<TemperatureSaid>;
}

export const createVessel = (): VesselState => ({
  position: createPosition(),
  receivers: [],
  time: createTime(),
  motion: createChannel(),
  heading: createChannel(),
  variation: createVariation(),
  windApparent: createChannel(),
  windGround: createChannel(),
  depth: createChannel(),
  waterSpeed: createChannel(),
  stream: createChannel(),
  waterTemperature: createChannel(),
});
