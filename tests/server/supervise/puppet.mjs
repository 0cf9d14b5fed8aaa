// Stands for the process that keeps the watch: beats, and does what its folder tells it. usage: puppet.mjs FOLDER
import { appendFileSync, existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';

const folder = process.argv[2];
const say = (text) => appendFileSync(join(folder, 'story'), `${text}\n`);
const told = (name) => {
  const is = existsSync(join(folder, name));
  if (is) rmSync(join(folder, name));
  return is;
};
say(`up${process.env.HAWSE_ENDED ? ` after: ${process.env.HAWSE_ENDED}` : ''}`);
if (told('fail')) process.exit(7);
process.send({
  type: 'ready',
  stallSeconds: 1,
  shout: [
    [
      process.execPath,
      '-e',
      `require('fs').appendFileSync(${JSON.stringify(join(folder, 'horn'))}, process.env.HAWSE_TEXT + '\\n')`,
    ],
  ],
});
setInterval(() => process.send({ type: 'alive' }), 100);
setInterval(() => {
  if (told('die')) process.exit(134);
  if (told('stall')) for (;;);
}, 20);
process.on('message', ({ reason }) => {
  say(`stop: ${reason}`);
  process.exit(0);
});
process.on('disconnect', () => process.exit(0));
