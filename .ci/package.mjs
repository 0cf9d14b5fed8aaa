// The packed package on a clean machine: packed, installed in an empty folder with production dependencies only, with and without
// install scripts, and its `npx hawse` used as a newcomer would. Prints what it did with times; exit 1 with the reason otherwise.
import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PATIENCE_MS = 120_000;
const work = mkdtempSync(join(tmpdir(), 'hawse-package-'));
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));

function must(is, what) {
  if (!is) throw new Error(what);
}

function call(cwd, program, ...args) {
  try {
    return { code: 0, out: execFileSync(program, args, { cwd, encoding: 'utf8', stdio: 'pipe' }) };
  } catch (error) {
    if (typeof error.status !== 'number') throw error;
    return { code: error.status, out: error.stdout, err: error.stderr };
  }
}

function done(what, began) {
  console.log(`${what}: ${((performance.now() - began) / 1000).toFixed(1)} s`);
}

/** The simulated anchorage of the installed package, until its page and its state answer. */
async function rehearse(folder) {
  const hawse = spawn(join(folder, 'node_modules', '.bin', 'hawse'), ['rehearse', '--port', '0'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  try {
    const address = await new Promise((resolve, reject) => {
      let out = '';
      const late = setTimeout(() => reject(new Error(`rehearse did not start: ${out}`)), PATIENCE_MS);
      hawse.stdout.on('data', (chunk) => {
        out += chunk;
        const found = /http:\/\/localhost:\d+\//.exec(out);
        if (!found) return;
        clearTimeout(late);
        resolve(found[0]);
      });
      hawse.once('exit', (code) => reject(new Error(`rehearse ended with ${code}: ${out}`)));
    });
    const page = await fetch(address);
    must(page.ok && (await page.text()).includes('<script'), `${address} serves no page`);
    const state = await (await fetch(`${address}api/v1/state`)).json();
    must(typeof state.report === 'string', 'the state has no report');
    return address;
  } finally {
    hawse.removeAllListeners('exit');
    const ended = new Promise((resolve) => hawse.once('exit', resolve));
    hawse.kill('SIGTERM');
    await ended;
  }
}

async function tryPackage(tarball, name, ...options) {
  const folder = join(work, name);
  mkdirSync(folder);
  must(call(folder, 'npm', 'init', '-y').code === 0, 'npm init failed');
  let began = performance.now();
  const flags = ['--omit=dev', '--prefer-offline', '--no-audit', '--no-fund', ...options];
  const installed = call(folder, 'npm', 'install', tarball, ...flags);
  must(installed.code === 0, `npm install ${options} failed: ${installed.err}`);
  must(!existsSync(join(folder, 'node_modules', 'typescript')), 'development tools were installed');
  done(`npm install --omit=dev ${options.join(' ')}`, began);

  const told = call(folder, 'npx', '--no', '--', 'hawse', '--version');
  must(told.out === `${version}\n`, `hawse --version told ${told.out}`);

  began = performance.now();
  const check = call(folder, 'npx', '--no', '--', 'hawse', 'check');
  must(check.code === 1 && check.out.includes('there is no hawse.yaml'), `hawse check told ${check.out}`);
  const example = /do: cp (\S+) hawse\.yaml/.exec(check.out)?.[1];
  must(example && existsSync(example), 'the example that hawse check names is not in the package');
  done('hawse check', began);

  began = performance.now();
  const listen = call(folder, 'npx', '--no', '--', 'hawse', 'listen', '--seconds', '1', '--json');
  must(JSON.parse(listen.out).duties.length > 0, 'hawse listen told nothing');
  done('hawse listen --seconds 1', began);

  began = performance.now();
  await rehearse(folder);
  done('hawse rehearse until page and state answer', began);
}

try {
  const began = performance.now();
  const packed = call('.', 'npm', 'pack', '--ignore-scripts', '--silent', '--pack-destination', work);
  must(packed.code === 0, `npm pack failed: ${packed.err}`);
  const tarball = join(
    work,
    readdirSync(work).find((name) => name.endsWith('.tgz')),
  );
  done(`npm pack (${tarball.split('/').at(-1)})`, began);
  await tryPackage(tarball, 'plain');
  await tryPackage(tarball, 'without-scripts', '--ignore-scripts');
} catch (error) {
  console.error(`The package does not work: ${error.message}`);
  process.exitCode = 1;
} finally {
  rmSync(work, { recursive: true, force: true });
}
