// Finds the Chromium that the browser tests drive, and on a machine where it may (Debian, root) installs it first.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const DEBIAN = '/usr/bin/chromium';

/** Path of the browser: CHROMIUM from the environment, else Debian's. */
export const chromium = process.env.CHROMIUM ?? DEBIAN;

/** Nothing that phones home, and nothing that a machine without display, GPU or user namespaces lacks. */
export const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

function install() {
  const isDebian = existsSync('/usr/bin/apt-get');
  if (!isDebian || process.getuid?.() !== 0 || process.env.CHROMIUM) return false;
  console.log('installing Debian’s chromium for the browser tests');
  execFileSync('apt-get', ['update', '-q'], { stdio: 'inherit' });
  execFileSync('apt-get', ['install', '-q', '-y', '--no-install-recommends', 'chromium'], {
    stdio: 'inherit',
  });
  return existsSync(DEBIAN);
}

if (process.argv[1] === fileURLToPath(import.meta.url) && !existsSync(chromium) && !install()) {
  console.error(
    `The browser tests need Chromium, and there is none at ${chromium}.\n` +
      'Install it (Debian: sudo apt-get install chromium) or set CHROMIUM to the path of a Chromium or Chrome.',
  );
  process.exit(1);
}
