import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Debian's package, where this may be installed. */
function hasCertutil(): boolean {
  const works = () => {
    try {
      execFileSync('certutil', ['-H'], { stdio: 'ignore' });
      return true;
    } catch (error) {
      // It answers its own help with exit code 1.
      return (error as NodeJS.ErrnoException).code !== 'ENOENT';
    }
  };
  if (works()) return true;
  if (process.getuid?.() !== 0) return false;
  try {
    execFileSync('apt-get', ['install', '-y', '-qq', 'libnss3-tools'], { stdio: 'ignore', timeout: 50_000 });
  } catch {
    return false;
  }
  return works();
}

/**
 * A home folder whose browser trusts `root`, as after a person has imported it. Undefined, after printing NOT TESTED, when there is
 * no certutil and none can be installed.
 */
export function homeThatTrusts(root: string): string | undefined {
  if (!hasCertutil()) {
    console.warn('NOT TESTED: certutil is absent, so no browser could be made to trust the boat’s root.');
    return undefined;
  }
  const home = mkdtempSync(join(tmpdir(), 'hawse-home-'));
  const store = join(home, '.pki', 'nssdb');
  mkdirSync(store, { recursive: true });
  const file = join(home, 'root.pem');
  writeFileSync(file, root);
  execFileSync('certutil', ['-d', `sql:${store}`, '-N', '--empty-password']);
  execFileSync('certutil', ['-d', `sql:${store}`, '-A', '-t', 'C,,', '-n', 'hawse', '-i', file]);
  return home;
}
