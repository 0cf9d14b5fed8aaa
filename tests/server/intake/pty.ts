import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface PtyPair {
  /** Looks like a serial port; what is written to `other` comes out here. */
  device: string;
  other: string;
  /** Takes both away, as when the plug is pulled. */
  close(): Promise<void>;
}

function hasSocat(): boolean {
  try {
    execFileSync('socat', ['-V'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Debian's package, where this may be installed. */
function installSocat(): void {
  if (process.getuid?.() !== 0) return;
  try {
    execFileSync('apt-get', ['install', '-y', '-qq', 'socat'], { stdio: 'ignore', timeout: 50_000 });
  } catch {
    // Told below.
  }
}

/**
 * A pair of pseudo terminals joined by socat, in `folder` when given so that a pair can come back under the same names. Undefined,
 * after printing NOT TESTED, when there is no socat and none can be installed.
 */
export async function ptyPair(
  folder = mkdtempSync(join(tmpdir(), 'hawse-pty-')),
): Promise<PtyPair | undefined> {
  if (!hasSocat()) installSocat();
  if (!hasSocat()) {
    console.warn('NOT TESTED: socat is absent, so the serial port stays unproven in this run.');
    return undefined;
  }
  const device = join(folder, 'device');
  const other = join(folder, 'other');
  const child = spawn('socat', [`pty,raw,echo=0,link=${device}`, `pty,raw,echo=0,link=${other}`], {
    stdio: 'ignore',
  });
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  for (let i = 0; i < 2000 && !(existsSync(device) && existsSync(other)); i++)
    await new Promise((resolve) => setTimeout(resolve, 25));
  return {
    device,
    other,
    async close() {
      child.kill();
      await gone;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
