import type { Page } from 'playwright-core';
import { beforeEach, describe, expect, test } from 'vitest';
import { type Rig, rig } from '../server/api/help.ts';
import { expectNoFaults, open } from './browser.ts';
import { findings, misfits } from './looks.ts';
import { browser, pages, useBrowser } from './stage.ts';

/** The daemon's own server. A screen elsewhere aboard is told apart by the header that a proxy would add. */
const ELSEWHERE = { extraHTTPHeaders: { 'x-forwarded-for': '192.0.2.23' } };

let it: Rig;

useBrowser();

const start = async (options: Parameters<typeof rig>[0] = {}) => {
  it = await rig({ listen: true, webRoot: pages(), key: '', ...options });
};
beforeEach(() => start());

const screen = (path: string, options = {}): Promise<Page> =>
  open(browser, { url: `http://127.0.0.1:${it.port}`, stop: async () => {} }, path, {
    reducedMotion: 'reduce',
    ...options,
  });
const elsewhere = (path: string) => screen(path, ELSEWHERE);

async function showCode(desk: Page): Promise<string> {
  await desk.getByRole('button', { name: 'Show a code' }).click();
  return (await desk.locator('.pair-code').textContent()) ?? '';
}

async function pairWith(phone: Page, code: string, name: string): Promise<void> {
  await phone.getByLabel('Code', { exact: false }).first().fill(code);
  await phone.getByLabel('Name of this screen').first().fill(name);
  await phone.getByRole('button', { name: 'Pair', exact: true }).click();
}

async function hold(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name }).hover();
  await page.mouse.down();
}

describe('a phone', () => {
  test('that is not paired shows why its controls are off, and where to pair it, before it is tried', async () => {
    const phone = await elsewhere('/');
    await phone.getByText('This screen may look only.').first().waitFor();
    await phone.getByText('Weigh', { exact: true }).click();
    expect(await phone.getByRole('button', { name: 'Start to weigh' }).isDisabled()).toBe(true);
    const alert = phone.locator('.alert').first();
    if (!(await alert.getByRole('button', { name: 'Acknowledge' }).isVisible()))
      await alert.getByRole('button').first().click();
    expect(await alert.getByRole('button', { name: 'Acknowledge' }).isDisabled()).toBe(true);
    expect(await alert.getByRole('button', { name: 'Silence' }).isDisabled()).toBe(true);
    await phone.getByRole('link', { name: 'Pair it' }).first().click();
    await phone.getByRole('heading', { name: 'Pair this screen' }).waitFor();
    expect(it.desk.commands).toEqual([]);
    expectNoFaults(phone);
  });

  test('is paired by the code that another screen shows, commands under its name, and loses its key', async () => {
    const desk = await screen('/phones');
    await desk.getByText('which may command without being paired').waitFor();
    const code = await showCode(desk);
    const phone = await elsewhere('/phones');
    await phone.getByText('Not paired: it may look only.').waitFor();
    await pairWith(phone, 'ABCD-ABCD', 'Bunk');
    await phone.getByText('That is not the code.', { exact: false }).waitFor();
    await pairWith(phone, code.toLowerCase(), 'Bunk');
    await phone.getByText('Paired as “Bunk”: it may command.').waitFor();
    await phone.locator('.page-bar').getByRole('link', { name: 'Watch' }).click();
    await phone.getByText('Weigh', { exact: true }).click();
    await phone.getByRole('button', { name: 'Start to weigh' }).click();
    await expect.poll(() => it.desk.commands.at(-1)).toMatchObject({ by: 'Bunk', command: { do: 'weigh' } });

    await desk.locator('.pair-code').waitFor({ state: 'detached' });
    await desk.locator('.key-list').getByText('Bunk').waitFor();
    await hold(desk, 'Take the key away');
    await phone.getByText('This screen may look only.').first().waitFor();
    expect(it.ring.keys.list()).toEqual([]);
    expectNoFaults(desk);
    expectNoFaults(phone);
  });

  test('that scans the code has it typed already, and the address forgets it', async () => {
    const { code } = it.ring.pairing.open('acknowledge');
    const phone = await elsewhere(`/phones#${code}`);
    await expect.poll(() => phone.getByLabel('Code').first().inputValue()).toBe(code);
    expect(phone.url()).not.toContain(code);
    await phone.getByRole('button', { name: 'Pair', exact: true }).click();
    await phone.getByText('it may look, silence and acknowledge.').waitFor();
    await phone.goto(`http://127.0.0.1:${it.port}/`);
    const alert = phone.locator('.alert').first();
    if (!(await alert.getByRole('button', { name: 'Acknowledge' }).isVisible()))
      await alert.getByRole('button').first().click();
    await alert.getByRole('button', { name: 'Acknowledge' }).click();
    await expect.poll(() => it.desk.commands.at(-1)?.command.do).toBe('acknowledge');
    await phone.getByText('Weigh', { exact: true }).click();
    expect(await phone.getByRole('button', { name: 'Start to weigh' }).isDisabled()).toBe(true);
  });

  test('can be forgotten by whoever holds it', async () => {
    const { code } = it.ring.pairing.open('command');
    const phone = await elsewhere(`/phones#${code}`);
    await phone.getByRole('button', { name: 'Pair', exact: true }).click();
    await phone.getByText('Paired as', { exact: false }).waitFor();
    await hold(phone, 'Forget this screen');
    await phone.getByText('Not paired: it may look only.').waitFor();
    expect(it.ring.keys.list()).toEqual([]);
    expect(await phone.context().cookies()).toEqual([]);
  });
});

test('where only paired screens may look, another is shown how to be paired and nothing of the boat', async () => {
  await start({ look: 'paired' });
  const phone = await elsewhere('/');
  await phone.getByText('on this boat only paired screens may look').waitFor();
  expect(await phone.locator('body').textContent()).not.toContain('Test Petrel');
  const { code } = it.ring.pairing.open('look');
  await pairWith(phone, code, 'Guest');
  await phone.locator('.report').getByText('Lying to the wind').waitFor();
});

describe.each(['light', 'dark'] as const)('looks, %s', (colorScheme) => {
  test('nothing too small, cut off or hard to read', async () => {
    const desk = await screen('/phones', { colorScheme });
    await showCode(desk);
    it.ring.keys.add('A phone whose name is as long as names get aboard', 'command');
    await desk.reload();
    await desk.locator('.key-list li').first().waitFor();
    expect(await misfits(desk)).toEqual([]);
    expect(await findings(desk)).toEqual([]);
    const phone = await screen('/phones', { ...ELSEWHERE, colorScheme });
    await phone.getByRole('heading', { name: 'Pair this screen' }).waitFor();
    expect(await misfits(phone)).toEqual([]);
    expect(await findings(phone)).toEqual([]);
  });
});
