import { type ParseArgsConfig, parseArgs } from 'node:util';

/** The call is wrong; the message says in one line what is wrong and what is allowed. */
export class UsageError extends Error {
  override name = 'UsageError';
}

type Options = NonNullable<ParseArgsConfig['options']>;

/** parseArgs whose errors are UsageErrors, and that answers --help with `help` on stdout (then returns undefined). */
export function readArguments<T extends Options>(args: string[], options: T, help: string, operands = false) {
  try {
    const read = parseArgs({
      args,
      options: { ...options, help: { type: 'boolean', short: 'h' } },
      allowPositionals: operands,
      strict: true,
    });
    if ((read.values as { help?: boolean }).help) {
      process.stdout.write(help);
      return undefined;
    }
    return {
      values: read.values as { [K in keyof T]?: T[K]['type'] extends 'boolean' ? boolean : string },
      operands: read.positionals,
    };
  } catch (error) {
    const names = Object.keys(options).map((name) => `--${name}`);
    const what = (error as Error).message.split(/\.\s/)[0] ?? 'wrong arguments';
    throw new UsageError(`${what}; allowed: ${[...names, '--help'].join(', ')}`);
  }
}

/** A number option within limits, or undefined when it was not given. */
export function numberOption(
  name: string,
  text: string | undefined,
  min: number,
  max: number,
): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (text.trim() === '' || !(value >= min && value <= max)) {
    throw new UsageError(`--${name} "${text}" is not a number from ${min} to ${max}`);
  }
  return value;
}
