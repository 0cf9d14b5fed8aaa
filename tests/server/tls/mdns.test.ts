import multicastDns, { type MulticastDNS } from 'multicast-dns';
import { afterEach, expect, test } from 'vitest';
import { createMdns } from '../../../server/tls/mdns.ts';

const closing: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});
/** A name that nobody else on this network has. */
const name = () => `hawse-test-${process.pid}-${Math.floor(performance.now() * 1000)}`;

function asker(): MulticastDNS {
  const made = multicastDns();
  closing.push(() => new Promise<void>((resolve) => made.destroy(() => resolve())));
  return made;
}

/** Asks until somebody answers; undefined, after printing NOT TESTED, when multicast does not reach this computer itself. */
async function resolved(who: string): Promise<string[] | undefined> {
  const from = asker();
  return new Promise((resolve) => {
    const ask = setInterval(() => from.query([{ name: `${who}.local`, type: 'A' }]), 200);
    const giveUp = setTimeout(() => {
      clearInterval(ask);
      console.warn('NOT TESTED: multicast does not come back to this computer.');
      resolve(undefined);
    }, 8000);
    from.on('response', ({ answers = [] }) => {
      const found = answers.flatMap((answer) =>
        answer.type === 'A' && answer.name === `${who}.local` ? [answer.data] : [],
      );
      if (found.length === 0) return;
      clearInterval(ask);
      clearTimeout(giveUp);
      resolve(found);
    });
  });
}

function boat(who: string, addresses: string[]) {
  const notes: string[] = [];
  const made = createMdns({ name: who, addresses: () => addresses, note: (text) => notes.push(text) });
  closing.push(() => made.stop());
  return notes;
}

test('the boat answers to her name with her private IPv4 addresses', async () => {
  const who = name();
  const notes = boat(who, ['192.168.4.7', '203.0.113.5', 'fd00::7']);
  const found = await resolved(who);
  if (!found) return;
  expect(found).toEqual(['192.168.4.7']);
  expect(notes).toEqual([]);
});

test('a name that another answers to already is left to her, and told', async () => {
  const who = name();
  boat(who, ['192.168.4.7']);
  if (!(await resolved(who))) return;
  const notes = boat(who, ['192.168.4.8']);
  while (notes.length === 0) await new Promise((resolve) => setTimeout(resolve, 20));
  expect(notes[0]).toMatch(/is taken by 192\.168\.4\.7: choose another server\.mdns/);
  expect(await resolved(who)).toEqual(['192.168.4.7']);
});
