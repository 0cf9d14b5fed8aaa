// The icons of the home screen, drawn from web/public/anchor.svg. `npm run icons` after the drawing has changed.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium as playwright } from 'playwright-core';
import { chromium, flags } from '../browser/chromium.mjs';
import { root } from './boat.mjs';

const folder = join(root, 'web', 'public');
const drawing = readFileSync(join(folder, 'anchor.svg'), 'utf8');
/** Systems cut a maskable icon to any shape inside a circle of 80 %: ground to the edge, drawing smaller. */
const maskable = drawing.replace('rx="6"', 'rx="0"').replace('<g ', '<g transform="scale(0.78)" ');
/** iPhones round the corners themselves and make transparency black. */
const square = drawing.replace('rx="6"', 'rx="0"');

const ICONS = [
  ['icon-192.png', 192, drawing],
  ['icon-512.png', 512, drawing],
  ['icon-maskable-512.png', 512, maskable],
  ['apple-touch-icon.png', 180, square],
];

const browser = await playwright.launch({ executablePath: chromium, args: flags });
for (const [name, size, svg] of ICONS) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(
    `<style>*{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`,
  );
  await page.screenshot({ path: join(folder, name), omitBackground: true });
  await page.close();
  console.log(name);
}
await browser.close();
