import type { Intake, Sinks } from './input.ts';
import { createSerial } from './serial.ts';
import { createTcp } from './tcp.ts';
import { createUdp } from './udp.ts';

/** An input as hawse.yaml describes it, with its name. */
export type IntakeConfig = { id: string } & (
  | { serial: string; baud: number | 'auto' }
  | { udp: number; host?: string | undefined; from?: string | undefined; group?: string | undefined }
  | { tcp: string }
);

/**
 * Starts every input. Without an `overlong` sink the discarded bytes are told as a line that no decoder takes, so that they are
 * counted as malformed, journalled and seen like every other bad line.
 */
export function startIntakes(
  configs: IntakeConfig[],
  sinks: Omit<Sinks, 'overlong'> & Partial<Sinks>,
): Intake[] {
  const {
    line,
    link,
    overlong = (id, bytes) => line(id, `(${bytes} bytes without line end or start of a sentence)`),
  } = sinks;
  const intakes = configs.map((config) => create(config, { ...sinks, line, link, overlong }));
  for (const intake of intakes) intake.start();
  return intakes;
}

function create(config: IntakeConfig, sinks: Sinks): Intake {
  if ('serial' in config) return createSerial(config, sinks);
  if ('udp' in config) return createUdp(config, sinks);
  return createTcp(config, sinks);
}
