import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium as playwright } from 'playwright-core';
import { build } from 'vite';
import type { TestProject } from 'vitest/node';
import { chromium, flags } from './chromium.mjs';

/**
 * What all browser tests share: the pages as they are in the working tree, built into a folder of their own since dist/ may be
 * older; and one Chromium, since starting it takes as long as a test.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const web = fileURLToPath(new URL('../../web', import.meta.url));
  const outDir = mkdtempSync(join(tmpdir(), 'hawse-pages-'));
  const [server] = await Promise.all([
    playwright.launchServer({ executablePath: chromium, args: flags }),
    build({
      root: web,
      configFile: join(web, 'vite.config.ts'),
      logLevel: 'warn',
      build: { outDir, emptyOutDir: true },
    }),
  ]);
  project.provide('pages', outDir);
  project.provide('chromium', server.wsEndpoint());
  return async () => {
    await server.close();
    rmSync(outDir, { recursive: true, force: true });
  };
}

declare module 'vitest' {
  export interface ProvidedContext {
    pages: string;
    chromium: string;
  }
}
