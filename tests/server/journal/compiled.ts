import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../../', import.meta.url));

/** A module and all it imports as plain JavaScript in a new folder: plain node cannot run the sources. Returns the folder and the script. */
export function compiled(entry: string): { folder: string; script: string } {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-compiled-'));
  const out = join(folder, 'out');
  mkdirSync(out);
  writeFileSync(join(out, 'package.json'), '{"type":"module"}');
  symlinkSync(join(root, 'node_modules'), join(out, 'node_modules'));
  const config = join(folder, 'tsconfig.json');
  writeFileSync(
    config,
    JSON.stringify({
      extends: join(root, 'tsconfig.json'),
      compilerOptions: {
        outDir: out,
        rootDir: root,
        sourceMap: false,
        typeRoots: [join(root, 'node_modules/@types')],
      },
      include: [],
      files: [entry],
    }),
  );
  const tsc = join(root, 'node_modules/typescript/bin/tsc');
  const { status, stdout } = spawnSync(process.execPath, [tsc, '-p', config], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${entry} does not compile:\n${stdout}`);
  return { folder, script: join(out, relative(root, entry).replace(/\.ts$/, '.js')) };
}
