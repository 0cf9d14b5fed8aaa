import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import type { TestProject } from 'vitest/node';

/** The pages as they are in the working tree, built once for all browser tests into a folder of their own: dist/ may be older. */
export default async function setup(project: TestProject): Promise<() => void> {
  const web = fileURLToPath(new URL('../../web', import.meta.url));
  const outDir = mkdtempSync(join(tmpdir(), 'hawse-pages-'));
  await build({
    root: web,
    configFile: join(web, 'vite.config.ts'),
    logLevel: 'warn',
    build: { outDir, emptyOutDir: true },
  });
  project.provide('pages', outDir);
  return () => rmSync(outDir, { recursive: true, force: true });
}

declare module 'vitest' {
  export interface ProvidedContext {
    pages: string;
  }
}
