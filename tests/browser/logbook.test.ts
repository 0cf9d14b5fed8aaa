import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { settingsOf } from '../../server/commands/rehearse.ts';
import type { Daemon } from '../../server/daemon.ts';
import { anchorages } from '../../server/simulate/anchorages.ts';
import type { State } from '../../shared/state.ts';
import { recorded } from '../recorded.ts';
import { api, daemonAtHand } from '../server/daemonAtHand.ts';
import { emptyData, keepNights, START } from '../server/logbook/keptNight.ts';
import { DESK, expectNoFaults, open, played, textOf } from './browser.ts';
import { findings, misfits } from './looks.ts';
import { measured } from './measured.ts';
import { browser, pages, useBrowser } from './stage.ts';

// A rehearsed night in which the anchor trips, in a real logbook behind the real daemon; then a real recording.

let daemon: Daemon;
let url: string;
const boat = () => ({ url, stop: async () => {} });
const OUT = mkdtempSync(join(tmpdir(), 'hawse-reports-'));

async function nightOfDrag(): Promise<string> {
  const kept = await keepNights(emptyData(), { anchorage: 'drag-trip' });
  await kept.live(10);
  const { lat, lon } = kept.anchor();
  const say = (command: Parameters<typeof kept.keeper.feed>[0]) => kept.keeper.feed(command);
  await say({ kind: 'command', by: 'Ann', command: { do: 'mark', how: { lat, lon, sigma: 2 } } });
  await kept.live(2150);
  const alarm = kept.events.find((event) => event.event === 'alert' && event.kind === 'drag');
  if (alarm?.event !== 'alert') throw new Error('the rehearsal did not drag');
  await say({ kind: 'command', by: 'Ann', command: { do: 'acknowledge', alert: alarm.id } });
  await kept.live(60);
  await say({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
  await kept.stop();
  return kept.data;
}

useBrowser();
beforeAll(async () => {
  const data = await nightOfDrag();
  daemon = await daemonAtHand({
    settings: settingsOf(anchorages()[0]!),
    data,
    start: START + 86_400,
    feeder: () => ({ stop: async () => {} }),
    webRoot: pages(),
  });
  url = `http://127.0.0.1:${daemon.port}`;
});

afterAll(() => daemon?.stop('the test is over'));

const PAST = /^PAST:/;
/** Where she lay when the receiver froze. */
const LAKE = { lat: '46 12.828 N', lon: '6 10.246 E' };

/** From the list, as a person would: the line of the night. */
async function fromList(page: Page): Promise<void> {
  await page.locator('.nights a').first().click();
  await page.locator('.past-band').getByText(PAST).waitFor();
}

const bar = (page: Page) => page.getByRole('slider', { name: 'Time of the night' });
const shownAt = async (page: Page) => Number(await bar(page).getAttribute('aria-valuenow'));

async function download(page: Page, click: () => Promise<void>): Promise<string> {
  const [saved] = await Promise.all([page.waitForEvent('download'), click()]);
  const path = join(OUT, saved.suggestedFilename());
  await saved.saveAs(path);
  return path;
}

/** Prints a report as a browser does, on a page of its own that asks nobody for anything. */
async function print(path: string, format: 'A4' | 'Letter'): Promise<Buffer> {
  const context = await browser.newContext({ offline: true });
  const page = await context.newPage();
  const asked: string[] = [];
  page.on('request', (request) => {
    if (!request.url().startsWith('file:')) asked.push(request.url());
  });
  await page.goto(`file://${path}`);
  const session = await context.newCDPSession(page);
  const [width, height] = format === 'A4' ? [8.27, 11.69] : [8.5, 11];
  const { data } = await session.send('Page.printToPDF', { paperWidth: width, paperHeight: height });
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(wide).toBeLessThanOrEqual(0);
  await context.close();
  expect(asked).toEqual([]);
  const pdf = Buffer.from(data, 'base64');
  writeFileSync(path.replace(/html$/, `${format}.pdf`), pdf);
  return pdf;
}

test('a drag is reviewed from the list to the report', async () => {
  const page = await open(browser, boat(), '/logbook');
  await page.locator('.nights a').first().waitFor();
  expect(await textOf(page.locator('.nights'))).toMatch(/alarm/);
  expect(await misfits(page)).toEqual([]);
  expect(await findings(page)).toEqual([]);

  const begun = performance.now();
  await fromList(page);
  await page.locator('.plan svg').waitFor();
  measured(`opening a night: ${Math.round(performance.now() - begun)} ms until its plan is drawn`);
  expect(await textOf(page.locator('.past-band'))).toContain('Nothing here is now.');

  // The first look is at the alarm; jumping goes on from there.
  const drag = page.locator('.past-alerts li', { hasText: 'The anchor drags' }).first();
  await drag.getByRole('button').click();
  const atDrag = await shownAt(page);
  expect(await textOf(drag)).toContain('acknowledged by Ann');
  expect(await textOf(drag)).toContain('on the alert list then');
  await bar(page).press('Home');
  expect(await shownAt(page)).toBeLessThan(atDrag);
  await page.getByRole('button', { name: 'Next alert' }).click();
  expect(await shownAt(page)).toBeLessThanOrEqual(atDrag);
  expect(await misfits(page)).toEqual([]);
  expect(await findings(page)).toEqual([]);

  // It plays, and stands again.
  await bar(page).press('Home');
  const from = await shownAt(page);
  await page.getByLabel('How many times faster').selectOption('600');
  await page.getByRole('button', { name: 'Play' }).click();
  await page.waitForFunction(
    (start) => Number(document.querySelector('.bar')!.getAttribute('aria-valuenow')) > start + 60,
    from,
  );
  await page.getByRole('button', { name: 'Pause' }).click();

  // Exact: the very sentence that the watch said then.
  await drag.getByRole('button').click();
  await page.getByRole('button', { name: 'Show every second exactly' }).click();
  await page.getByText('As the watch knew it at this second.').waitFor();
  expect(await textOf(page.locator('.review .report'))).toMatch(/moves away|drags/);

  // Nothing of it is an alert now: no bar, no sound, no order to the boat.
  expect(await page.locator('.alert-bar li').count()).toBe(0);
  expect((await played(page)).alarm ?? 0).toBe(0);
  const { alerts } = (await (await api(daemon, '/state')).json()) as State;
  expect(alerts.filter(({ kind }) => kind === 'drag')).toEqual([]);

  // What if the circle had been smaller.
  await page.locator('summary', { hasText: 'What if' }).click();
  await page.getByRole('button', { name: 'Try it' }).click();
  expect(await textOf(page.locator('.panel[open] .told'))).toContain('Nothing is changed');
  await page.getByLabel('Circle, m').fill('30');
  await page.getByRole('button', { name: 'Try it' }).click();
  const compared = page.locator('.compared');
  await compared.waitFor();
  expect(await textOf(compared)).toMatch(/Outside the circle[\s\S]*from the mark of then/);
  expect(await page.getByText('has other alerts than its record').count()).toBe(0);
  measured(`what if: ${await textOf(page.getByText('as fast as the night'))}`);
  expect(await misfits(page)).toEqual([]);

  const path = await download(page, () => page.getByRole('link', { name: 'Incident report' }).click());
  const html = readFileSync(path, 'utf8');
  for (const told of ['acknowledged by Ann', 'SHA-256', 'Settings when the watch began', '<svg class="plan"'])
    expect(html).toContain(told);
  expect(html).not.toMatch(/(?:src|href)=/);
  for (const format of ['A4', 'Letter'] as const)
    expect((await print(path, format)).length).toBeGreaterThan(10_000);
  console.log(`report printed: ${path}`);
  expectNoFaults(page);
});

/** How many frames are drawn and dropped while something is done. */
async function frames(page: Page, act: () => Promise<void>): Promise<string> {
  await page.evaluate(() => {
    const times: number[] = [];
    Object.assign(window, { frameTimes: times });
    const on = (ms: number) => {
      times.push(ms);
      if ((window as unknown as { frameTimes: number[] }).frameTimes === times) requestAnimationFrame(on);
    };
    requestAnimationFrame(on);
  });
  await act();
  const times = await page.evaluate(() => (window as unknown as { frameTimes: number[] }).frameTimes);
  const gaps = times.slice(1).map((ms, i) => ms - times[i]!);
  const dropped = gaps.reduce((sum, gap) => sum + Math.max(0, Math.round(gap / 16.67) - 1), 0);
  const share = Math.round((100 * dropped) / (dropped + gaps.length));
  return `${gaps.length} drawn, ${dropped} dropped (${share} %), longest ${Math.round(Math.max(...gaps))} ms`;
}

test('a finger on the time bar of a slow phone', async () => {
  const page = await open(browser, boat(), '/logbook');
  await fromList(page);
  await page.locator('.plan svg').waitFor();
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 6 });
  const { x, y, width, height } = (await bar(page).boundingBox())!;
  const before = await shownAt(page);
  const atRest = await frames(page, () => page.waitForTimeout(3000));
  const scrubbed = await frames(page, async () => {
    await page.mouse.move(x + 5, y + height / 2);
    await page.mouse.down();
    await page.mouse.move(x + width - 5, y + height / 2, { steps: 80 });
    await page.mouse.up();
  });
  measured(`frames at 6× throttle: at rest ${atRest}; scrubbing ${scrubbed}`);
  expect(await shownAt(page)).not.toBe(before);
});

test('the recording of a receiver that froze: the report shows plainly when the data were dead', async () => {
  const file = recorded('boat-lake/lake-2014-06-27.nmea.gz');
  if (!file) return;
  const page = await open(browser, boat(), '/logbook', { viewport: DESK });
  await page.locator('summary', { hasText: 'A recorded file' }).click();
  await page.locator('.drop input').setInputFiles(file);
  await page.getByLabel('Cable out, m').fill('30');
  await page.getByLabel('Latitude of the mark').fill('99');
  await page.getByRole('button', { name: 'Look at it here' }).click();
  expect(await textOf(page.locator('.panel[open] .told'))).toContain('latitude and longitude');
  await page.getByLabel('Latitude of the mark').fill(LAKE.lat);
  await page.getByLabel('Longitude of the mark').fill(LAKE.lon);

  // On this device alone.
  await page.getByRole('button', { name: 'Look at it here' }).click();
  await page.locator('.past-band').getByText('from the file').waitFor();
  expect(await textOf(page.locator('.past-alerts'))).toMatch(/Position (lost|doubtful)/);
  const own = readFileSync(
    await download(page, () => page.getByRole('button', { name: 'Incident report' }).click()),
    'utf8',
  );
  await page.getByRole('button', { name: 'All nights' }).click();

  // Kept in the logbook, told by the daemon: the same dead times.
  await page.locator('summary', { hasText: 'A recorded file' }).click();
  await page.locator('.drop input').setInputFiles(file);
  await page.getByLabel('Cable out, m').fill('30');
  await page.getByLabel('Latitude of the mark').fill(LAKE.lat);
  await page.getByLabel('Longitude of the mark').fill(LAKE.lon);
  await page.getByRole('button', { name: 'Add it to the logbook' }).click();
  await page.locator('.past-band').getByText(PAST).waitFor();
  const path = await download(page, () => page.getByRole('link', { name: 'Incident report' }).click());
  const html = readFileSync(path, 'utf8');
  const dead = (text: string) => /<div class="box"><strong>For [\s\S]*?<\/div>/.exec(text)?.[0];
  expect(dead(html)).toContain('nothing is known of where she lay');
  expect(dead(own)).toBe(dead(html));
  expect(html).toContain('class="dead"');
  console.log(`dead in the recording: ${dead(html)!.replace(/<[^>]+>/g, ' ')}`);
  await print(path, 'A4');
  console.log(`report printed: ${path}`);
  expectNoFaults(page);
});
