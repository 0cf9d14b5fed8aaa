import { describe, expect, test } from 'vitest';
import { AT } from './fakeDesk.ts';
import { expectProblem, rig } from './help.ts';

async function anchored() {
  const it = await rig();
  it.desk.now.check = {
    measured: [{ item: 'wind', state: 'unknown', text: 'No wind is measured.' }],
    items: ['Cooling water flows', 'Fenders'],
  };
  return it;
}

describe('the departure check', () => {
  test('is read by anybody aboard; without a mark there is none', async () => {
    const { ask, desk } = await anchored();
    expect(await ask('GET', 'check')).toMatchObject({
      status: 200,
      json: {
        check: { measured: [{ item: 'wind', state: 'unknown' }], items: ['Cooling water flows', 'Fenders'] },
      },
    });
    delete desk.now.check;
    expect(await ask('GET', 'check')).toMatchObject({ status: 200, json: {} });
  });

  test('is journalled with what was ticked, be it nothing', async () => {
    const { ask, desk } = await anchored();
    const reply = await ask('POST', 'check', { ticked: ['Fenders'] });
    expect(reply).toMatchObject({ status: 200, json: { check: { last: { at: AT, ticked: ['Fenders'] } } } });
    expect((await ask('POST', 'check', { ticked: [] })).status).toBe(200);
    expect(desk.commands[0]).toEqual({
      command: { do: 'departure-check', ticked: ['Fenders'] },
      by: 'this computer',
    });
    expectProblem(
      await ask('POST', 'check', { ticked: ['Dog'] }),
      409,
      'refused',
      /"Dog" is not on the list/,
    );
  });

  test("the crew's own list, and the common one again", async () => {
    const { ask, desk } = await anchored();
    expect((await ask('PUT', 'check/items', { items: ['Dinghy aboard'] })).json.check.items).toEqual([
      'Dinghy aboard',
    ]);
    expect((await ask('PUT', 'check/items', { items: null })).status).toBe(200);
    expect(desk.commands.map(({ command }) => command)).toEqual([
      { do: 'departure-items', items: ['Dinghy aboard'] },
      { do: 'departure-items', items: null },
    ]);
  });

  test.each([
    ['POST', 'check', {}, 'ticked', /expected array/],
    ['POST', 'check', { ticked: [1] }, 'ticked.0', /expected string/],
    ['PUT', 'check/items', { items: [' '] }, 'items.0', />=1/],
    ['PUT', 'check/items', { items: ['x'.repeat(61)] }, 'items.0', /<=60/],
    ['PUT', 'check/items', {}, 'items', /expected array/],
  ])('%s %s %j is refused with what is allowed', async (method, path, body, place, words) => {
    const { ask, desk } = await anchored();
    const reply = await ask(method, path, body);
    expectProblem(reply, 400, 'not-valid');
    expect(reply.json.errors).toContainEqual({
      in: 'body',
      path: place,
      detail: expect.stringMatching(words),
    });
    expect(desk.commands).toEqual([]);
  });
});
