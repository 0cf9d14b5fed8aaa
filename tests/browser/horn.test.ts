import { expect, test } from 'vitest';
import type { OutputView } from '../../shared/outputs.ts';
import { hornWords } from '../../web/words/horn.ts';
import { expectNoFaults, open, SMALL } from './browser.ts';
import { findings, misfits } from './looks.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

let outputs: OutputView[] | undefined;

useFakeBoat((state) => {
  if (outputs) state.outputs = outputs;
});

const horn = (told: Partial<OutputView>): OutputView => ({
  id: 'foghorn',
  kind: 'command',
  what: '/home/boat/bin/sound-the-horn-of-the-boat',
  on: false,
  failing: false,
  ...told,
});

test('each way out says whether it works; the test tells what came of it', async () => {
  const at = Date.now() / 1000;
  outputs = [
    horn({}),
    horn({
      id: 'relay',
      lastOk: at,
      lastTest: { at, by: 'Bunk', ok: true, detail: 'It sounded, and ended.' },
    }),
    horn({
      id: 'siren',
      failing: true,
      on: true,
      lastFailure: { at, why: 'there is no program /bin/siren' },
    }),
    horn({ id: 'udp1', kind: 'udp', what: 'UDP 192.168.4.255:10110', on: true, lastOk: at }),
  ];
  const page = await open(browser, boat, '/instruments', { viewport: SMALL });
  const { states } = hornWords;
  const state = (id: string) => page.locator('.horn article', { hasText: id }).locator('.state');
  await state('foghorn').waitFor();
  for (const [id, words] of [
    ['foghorn', states.untested],
    ['relay', states.ready],
    ['siren', states.failing],
    ['udp1', states.on],
  ] as const)
    expect(await state(id).textContent()).toBe(words);
  await page.getByText(/there is no program \/bin\/siren/).waitFor();

  let answer = [{ id: 'siren', ok: false, detail: 'it is gone' }];
  await page.route('**/api/v1/horn/test', (route) => route.fulfill({ json: { outputs: answer } }));
  const told = page.locator('.horn [role=status]');
  await page.getByRole('button', { name: hornWords.test }).click();
  await told.filter({ hasText: 'siren: it is gone' }).waitFor();
  answer = [{ id: 'siren', ok: true, detail: 'It sounded, and ended.' }];
  await page.getByRole('button', { name: hornWords.test }).click();
  await told.filter({ hasText: hornWords.testDone }).waitFor();

  for (const palette of ['night', 'day']) {
    await page.evaluate((name) => document.documentElement.setAttribute('data-palette', name), palette);
    expect(await findings(page)).toEqual([]);
    expect(await misfits(page)).toEqual([]);
  }
  expectNoFaults(page);
});

test('without a horn the page says that only pages carry alerts', async () => {
  outputs = undefined;
  const page = await open(browser, boat, '/instruments');
  await page.getByText(hornWords.none).waitFor();
  expect(await page.getByRole('button', { name: hornWords.test }).count()).toBe(0);
  expectNoFaults(page);
});
