// How long a slow phone takes to the first figure: the watch page over a boat's Wi-Fi (4 Mbit/s, 60 ms each way and back), its
// processor slowed to a sixth. `npm run bench:phone`. Prints the median of five cold loads, and one out of the service worker's store.
import { chromium as playwright } from 'playwright-core';
import { chromium, flags } from '../browser/chromium.mjs';
import { rehearse } from './boat.mjs';

const LOADS = 5;
const SLOWER = 6;
const WIFI = { offline: false, latency: 60, downloadThroughput: 500_000, uploadThroughput: 250_000 };

const boat = await rehearse('--seed', '7');
const browser = await playwright.launch({ executablePath: chromium, args: flags });

async function load(context) {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', WIFI);
  await page.addInitScript(() => {
    new MutationObserver((_, observer) => {
      if (!/\d/.test(document.querySelector('.dominant')?.textContent ?? '')) return;
      window.firstFigure = performance.now();
      observer.disconnect();
    }).observe(document, { childList: true, subtree: true, characterData: true });
    let shift = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) shift += entry.value;
      window.layoutShift = shift;
    }).observe({ type: 'layout-shift', buffered: true });
  });
  await page.goto(boat.url);
  await page.waitForFunction(() => window.firstFigure > 0);
  await page.waitForTimeout(1000);
  const figures = await page.evaluate(() => ({
    paint: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN,
    figure: window.firstFigure,
    shift: window.layoutShift ?? 0,
  }));
  await page.close();
  return figures;
}

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
const told = (name, loads) => {
  const of = (key) => median(loads.map((figures) => figures[key]));
  const shift = of('shift').toFixed(3);
  console.log(
    `${name}: first words ${of('paint').toFixed(0)} ms, first figure ${of('figure').toFixed(0)} ms, layout shift ${shift}`,
  );
};

try {
  const cold = [];
  for (let i = 0; i < LOADS; i++) {
    const context = await browser.newContext({
      viewport: { width: 390, height: 844 },
      serviceWorkers: 'block',
    });
    cold.push(await load(context));
    await context.close();
  }
  told(`cold, ${SLOWER}× slower`, cold);
  const again = await browser.newContext({ viewport: { width: 390, height: 844 } });
  await load(again);
  const warm = [];
  for (let i = 0; i < LOADS; i++) warm.push(await load(again));
  told(`again, ${SLOWER}× slower`, warm);
} finally {
  await browser.close();
  await boat.stop();
}
