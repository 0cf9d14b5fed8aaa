/** Run as a process of its own: keeps numbered inputs in the journal, and prints each number that was confirmed, until it is killed. */
import { openJournal } from '../../../server/journal/journal.ts';

const [data, firstNumber, firstAt] = process.argv.slice(2) as [string, string, string];
const journal = await openJournal(data, {
  onfault: (text) => process.stderr.write(`${text}\n`),
  onrecovered: () => undefined,
});
let at = Number(firstAt);
for (let number = Number(firstNumber); ; number++) {
  at = Math.round((at + 0.01) * 1e6) / 1e6;
  if (number % 7 === 0) {
    await journal.act({ kind: 'command', at, by: 'test', command: { do: 'signal', signal: `${number}` } });
    process.stdout.write(`${number}\n`);
  } else {
    journal.line({ kind: 'line', at, source: 'udp1', text: `$TEST,${number}` });
  }
  if (number % 97 === 0) void journal.checkpoint({ number }, at);
  if (number % 3 === 0) await new Promise((resolve) => setImmediate(resolve));
}
