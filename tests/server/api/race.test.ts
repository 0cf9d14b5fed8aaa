import { expect, test } from 'vitest';
import { expectProblem, rig } from './help.ts';

test('weighing that somebody else ends in the same moment is refused in words, not an error of hawse', async () => {
  const { ask, desk } = await rig();
  const obey = desk.command;
  desk.command = async (command, by) => {
    const answer = await obey(command, by);
    if (command.do === 'weigh') await obey({ do: 'stop-weighing' }, 'another');
    return answer;
  };
  expectProblem(await ask('POST', 'weigh'), 409, 'refused', /ended by somebody else/);
  expect(desk.now.weigh).toBeUndefined();
});
