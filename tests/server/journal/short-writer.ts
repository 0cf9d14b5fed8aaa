/** Run as a process of its own: keeps a line, an order and a checkpoint, and ends. */
import { openJournal } from '../../../server/journal/journal.ts';

const journal = await openJournal(process.argv[2]!, {
  onfault: (text) => process.stderr.write(`${text}\n`),
  onrecovered: () => undefined,
});
journal.line({ kind: 'line', at: 1_700_000_000, source: 'a', text: '$X' });
await journal.act({ kind: 'command', at: 1_700_000_001, by: 'test', command: { do: 'aweigh' } });
await journal.checkpoint({}, 1_700_000_002);
await journal.close();
