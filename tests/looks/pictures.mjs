// Pictures of every page at the size of a phone, by day and by night, into docs/pictures. `npm run pictures`.
// With --weighing only those of a weighing, with --logbook only those of a night seen again; the others stay.
// With --vision DIR it makes pictures as people with other colour vision see them, for looking at, into DIR instead.
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { chromium as playwright } from 'playwright-core';
import { chromium, flags } from '../browser/chromium.mjs';
import { rehearse, root } from './boat.mjs';

const PHONE = { width: 390, height: 844 };
const PALETTES = { day: 'light', night: 'dark' };
const VISION = ['protanopia', 'deuteranopia', 'tritanopia', 'achromatopsia'];
const SETTLE_MS = 2500;

const at = process.argv.indexOf('--vision');
const forVision = at > 0 ? process.argv[at + 1] : undefined;
const out = forVision ?? join(root, 'docs', 'pictures');
mkdirSync(out, { recursive: true });
const weighingOnly = process.argv.includes('--weighing');
const logbookOnly = process.argv.includes('--logbook');
if (!weighingOnly && !logbookOnly)
  for (const old of readdirSync(out)) if (old.endsWith('.png')) rmSync(join(out, old));

const boats = [await rehearse('--seed', '7'), await rehearse('drag-creep', '--seed', '7', '--rate', '30')];
const browser = await playwright.launch({ executablePath: chromium, args: flags });
const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

async function open(boat, path, palette) {
  const context = await browser.newContext({
    viewport: PHONE,
    colorScheme: PALETTES[palette],
    reducedMotion: 'reduce',
    userAgent: 'Mozilla/5.0 (Linux; Android 14; Mobile) AppleWebKit/537.36 Chrome/130 Mobile Safari/537.36',
  });
  const page = await context.newPage();
  await page.goto(boat.url + path);
  await wait(SETTLE_MS);
  return page;
}

async function keep(page, name) {
  if (!forVision) {
    await page.screenshot({ path: join(out, `${name}.png`) });
    console.log(`${name}.png`);
    return;
  }
  const session = await page.context().newCDPSession(page);
  for (const type of VISION) {
    await session.send('Emulation.setEmulatedVisionDeficiency', { type });
    await page.screenshot({ path: join(out, `${name}-${type}.png`) });
  }
}

async function arm(page) {
  await page
    .getByRole('button', { name: /^Arm this/ })
    .last()
    .click();
  await page.getByRole('button', { name: 'I heard it' }).waitFor();
}

/** So that the boat misses nobody in the pictures that follow. */
async function disarm(page) {
  await page.locator('.phone-now').click();
  await page.getByRole('button', { name: /^Disarm this/ }).hover();
  await page.mouse.down();
  await page.getByText('it is not armed').waitFor();
  await page.mouse.up();
  await wait(2500);
}

/** Every page that the menu lists, whatever they are. */
async function listPages() {
  const page = await open(boats[0], '/', 'day');
  await page.getByRole('button', { name: 'Pages and settings' }).click();
  const paths = await page
    .locator('.drawer nav a')
    .evaluateAll((links) => links.map((link) => link.pathname));
  await page.context().close();
  return paths;
}

/** Helm and foredeck while she is weighed: a signal that was seen, then one that nobody sees. */
async function weighing(palette) {
  const helm = await open(boats[0], '/weigh', palette);
  const foredeck = await open(boats[0], '/foredeck', palette);
  const give = (signal) => foredeck.locator(`[data-signal="${signal}"]`).click();
  await give('lead:1');
  await give('heaving');
  await foredeck.locator('[data-signal="heaving"].seen').waitFor();
  await wait(SETTLE_MS);
  await keep(foredeck, `foredeck-seen-${palette}`);
  await keep(helm, `helm-weighing-${palette}`);
  await helm.context().close();
  await give('stop');
  await foredeck.locator('[data-signal="stop"].missed').waitFor({ timeout: 10_000 });
  await keep(foredeck, `foredeck-missed-${palette}`);
  await foredeck.context().close();
}

async function pages() {
  const paths = await listPages();
  for (const palette of Object.keys(PALETTES)) {
    for (const path of paths) {
      const page = await open(boats[0], path, palette);
      await keep(page, `${path.slice(1) || 'watch'}-${palette}`);
      if (path === '/') {
        await arm(page);
        await keep(page, `arming-${palette}`);
        await page.getByRole('button', { name: 'I heard it' }).click();
        await wait(500);
        await keep(page, `armed-${palette}`);
        await disarm(page);
      }
      if (path === '/setup') {
        await page.getByLabel('Antenna aft of the roller').focus();
        await wait(500);
        await keep(page, `setup-figures-${palette}`);
      }
      await page.context().close();
    }
    const alarmed = await open(boats[1], '/', palette);
    await alarmed
      .locator('.alert.alarm', { hasText: /drags|Outside/ })
      .first()
      .waitFor({ timeout: 240_000 });
    await keep(alarmed, `alarm-${palette}`);
    await alarmed.context().close();
  }
  for (const palette of Object.keys(PALETTES)) {
    const page = await open(boats[0], '/', palette);
    await page.context().setOffline(true);
    await page.locator('.link-banner').waitFor({ timeout: 20_000 });
    await keep(page, `no-word-${palette}`);
    await page.context().close();
  }
}

/** The night of the dragging boat, when it is over: seen again, exactly, and with another circle. */
async function logbook() {
  const { url } = boats[1];
  const post = (path) => fetch(`${url}/api/v1${path}`, { method: 'POST' });
  const watching = await open(boats[1], '/', 'night');
  await watching
    .locator('.alert.alarm', { hasText: /drags|moves/ })
    .first()
    .waitFor({ timeout: 300_000 });
  await watching.context().close();
  await post('/weigh/aweigh');
  const { alerts } = await (await fetch(`${url}/api/v1/state`)).json();
  for (const { id } of alerts) await post(`/alerts/${encodeURIComponent(id)}/acknowledge`);
  for (const palette of Object.keys(PALETTES)) {
    const page = await open(boats[1], '/logbook', palette);
    await page.locator('.nights a').first().waitFor();
    await keep(page, `logbook-nights-${palette}`);
    await page.locator('.nights a').first().click();
    await page.locator('.plan svg').waitFor();
    await page.locator('.past-alerts button', { hasText: 'The anchor drags' }).first().click();
    await page.locator('.scroll').evaluate((element) => element.scrollTo(0, 0));
    await wait(500);
    await keep(page, `logbook-replay-${palette}`);
    await page.getByRole('button', { name: 'Show every second exactly' }).click();
    await page.getByText('As the watch knew it').waitFor({ timeout: 120_000 });
    await page.locator('.scroll').evaluate((element) => element.scrollTo(0, 0));
    await wait(500);
    await keep(page, `logbook-exact-${palette}`);
    await page.locator('summary', { hasText: 'What if' }).click();
    await page.getByLabel('Circle, m').fill('35');
    await page.getByRole('button', { name: 'Try it' }).click();
    await page.locator('.compared').waitFor({ timeout: 120_000 });
    await page.locator('.compared').evaluate((element) => element.scrollIntoView({ block: 'center' }));
    await wait(500);
    await keep(page, `logbook-what-if-${palette}`);
    await page.context().close();
  }
}

try {
  if (!weighingOnly && !logbookOnly) await pages();
  if (!weighingOnly) await logbook();
  if (!logbookOnly) await weighings();
} finally {
  await browser.close();
  await Promise.all(boats.map((boat) => boat.stop()));
}

async function weighings() {
  const headers = { 'content-type': 'application/json' };
  await fetch(`${boats[0].url}/api/v1/weigh`, { method: 'POST', headers, body: '{}' });
  for (const palette of Object.keys(PALETTES)) await weighing(palette);
}
