import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** What every page must look like: nothing that axe finds, nothing that does not fit. */

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds, as lines that a person can act on. */
export async function findings(page: Page): Promise<string[]> {
  // Evaluated as a debugger does it, which the page's own policy of no foreign scripts does not forbid.
  await page.evaluate(axe);
  const results = (await page.evaluate('axe.run(document)')) as AxeResults;
  expect(results.passes.map(({ id }) => id)).toContain('color-contrast');
  return results.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 120)} ${node.failureSummary ?? ''}`),
  );
}

/** Elements that stick out of the screen, text that does not fit its box, and controls of less than 44 px. */
export function misfits(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const name = (element: Element) =>
      `${element.tagName} ${element.className} "${element.textContent?.trim().slice(0, 30)}"`;
    if (document.documentElement.scrollWidth > innerWidth) found.push('the page scrolls sideways');
    const all = [...document.querySelectorAll<HTMLElement>('#page *:not(svg *, .unseen)')];
    for (const element of all) {
      const { left, right, width } = element.getBoundingClientRect();
      if (width > 0 && (left < -0.5 || right > innerWidth + 0.5)) found.push(`sticks out: ${name(element)}`);
      const { overflowX, display } = getComputedStyle(element);
      const holdsText = [...element.childNodes].some(
        (node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim(),
      );
      if (
        holdsText &&
        display !== 'inline' &&
        overflowX !== 'auto' &&
        element.scrollWidth > element.clientWidth + 1
      )
        found.push(`text cut off: ${name(element)}`);
    }
    for (const control of document.querySelectorAll<HTMLElement>(
      'button, a, summary, select, input[type=text], input[type=range], .choice label',
    )) {
      const { width, height } = control.getBoundingClientRect();
      if (width > 0 && (width < 44 || height < 44)) found.push(`${width}×${height}: ${name(control)}`);
    }
    // A page that fills the screen has something of its own in the place of the clock.
    const clock = document.querySelector('.clock');
    const time = document.querySelector('.clock span');
    const menu = document.querySelector('.menu span')!.getBoundingClientRect();
    if (clock && time) {
      const edge = Math.min(clock.getBoundingClientRect().right, time.getBoundingClientRect().right - 20);
      if (menu.right > edge) found.push('the clock lies over the title');
    }
    return found;
  });
}
