import { describe, expect, test } from 'vitest';
import { planAnswer } from '../../../shared/messages.ts';
import { plan } from '../../../shared/plan/plan.ts';
import { believableState } from './fakeDesk.ts';
import { expectProblem, PHONE, rig } from './help.ts';

describe('POST /plan', () => {
  const ASKED = { depth: 6, wind: 15, chain: { size: 10 } };
  const planning = async () => {
    const it = await rig();
    it.desk.plan = plan;
    return it;
  };

  test('is worked out for whoever may look, for the boat of hawse.yaml unless told otherwise', async () => {
    const { ask } = await planning();
    const reply = await ask('POST', 'plan', ASKED, { from: PHONE });
    expect(reply.status).toBe(200);
    const { boat } = believableState();
    expect(planAnswer.parse(reply.json)).toEqual(plan({ ...ASKED, boat }));
    const { hull, length, beam, draft, windage, roller } = boat;
    const deep = { hull, length, beam, draft: draft + 1, windage, roller };
    const other = (await ask('POST', 'plan', { ...ASKED, boat: deep })).json;
    expect(other.items.underKeelLow.value).toBeCloseTo(reply.json.items.underKeelLow.value - 1, 6);
  });

  test('what the planner refuses comes back with every fault', async () => {
    const { ask } = await planning();
    const reply = await ask('POST', 'plan', { ...ASKED, depth: 0, wind: 200 });
    expectProblem(reply, 400, 'not-valid', /depth is 0.*wind is 200/);
    expect(reply.json.errors).toHaveLength(2);
  });

  test.each([
    [{}, 'depth', /expected number/],
    [{ ...ASKED, chain: {} }, 'chain', /expected \{size\} in mm, or \{massPerMetre/],
    [{ ...ASKED, chain: { size: '10' } }, 'chain', /expected \{size\}/],
    [{ ...ASKED, riseToHihg: 2 }, 'riseToHihg', /unknown member "riseToHihg", expected depth, riseToHigh/],
    [{ ...ASKED, boat: { windage: { areaa: 3 } } }, 'boat.windage.areaa', /expected area/],
  ])('%j is refused', async (body, path, words) => {
    const { ask } = await planning();
    const reply = await ask('POST', 'plan', body);
    expectProblem(reply, 400, 'not-valid');
    expect(reply.json.errors).toContainEqual({ in: 'body', path, detail: expect.stringMatching(words) });
  });

  test('a planner that breaks is hawse’s own fault, and gives nothing away', async () => {
    const { ask, desk } = await rig();
    desk.plan = () => {
      throw new TypeError('secret inner workings');
    };
    const reply = await ask('POST', 'plan', ASKED);
    expectProblem(reply, 500, 'own-error');
    expect(reply.text).not.toContain('secret');
  });
});
