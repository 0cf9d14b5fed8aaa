import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * Absolute path of recorded or reference material that is handed to the project beside its repository, or undefined when it is
 * absent, which is printed: a test that needs it must not pass in silence.
 */
export function sharedMaterial(path: string): string | undefined {
  const full = fileURLToPath(new URL(`../../shared/${path}`, import.meta.url));
  if (existsSync(full)) return full;
  console.warn(`NOT TESTED: ../shared/${path} is absent, so what it would show stays unproven in this run.`);
  return undefined;
}

/** Recorded sentences of real instruments, `../shared/recorded/…`. */
export const recorded = (path: string): string | undefined => sharedMaterial(`recorded/${path}`);
