import multicastDns from 'multicast-dns';
import { isOfABoat } from './names.ts';

export interface MdnsOptions {
  /** Without `.local`. */
  name: string;
  addresses(): readonly string[];
  /** Nothing that goes wrong here is more than a note: the addresses work without. */
  note(text: string): void;
}

const TTL_S = 120;
const PROBE_MS = 750;

/** Answers questions for NAME.local by multicast (RFC 6762) with the boat's IPv4 addresses, unless another answers already. */
export function createMdns({ name, addresses, note }: MdnsOptions): { stop(): Promise<void> } {
  const full = `${name}.local`;
  const mdns = multicastDns();
  let isOurs = false;
  let isStopped = false;
  const own = () => addresses().filter((address) => !address.includes(':') && isOfABoat(address));
  const answers = () =>
    own().map((data) => ({
      name: full,
      type: 'A' as const,
      class: 'IN' as const,
      ttl: TTL_S,
      flush: true,
      data,
    }));
  const isFull = (told: string) => told.toLowerCase() === full;

  // Without a listener an error would end the daemon.
  mdns.on('error', (error: Error) => note(`${full} cannot be announced: ${error.message}`));
  mdns.on('warning', (error: Error) => note(`${full}: ${error.message}`));
  mdns.on('query', ({ questions = [] }) => {
    if (!isOurs || !questions.some((asked) => isFull(asked.name) && /^(A|ANY)$/.test(asked.type))) return;
    mdns.respond(answers());
  });
  mdns.on('response', ({ answers: told = [] }) => {
    if (isOurs || isStopped) return;
    const others = told.flatMap((answer) =>
      answer.type === 'A' && isFull(answer.name) && !own().includes(answer.data) ? [answer.data] : [],
    );
    if (others[0] === undefined) return;
    isStopped = true;
    note(`${full} is taken by ${others[0]}: choose another server.mdns, or open the boat by her address.`);
  });
  const claim = setTimeout(() => {
    if (isStopped) return;
    isOurs = true;
    mdns.respond(answers());
  }, PROBE_MS);
  claim.unref();
  mdns.query([{ name: full, type: 'A' }]);

  return {
    stop: () => {
      clearTimeout(claim);
      isStopped = true;
      isOurs = false;
      return new Promise((resolve) => mdns.destroy(() => resolve()));
    },
  };
}
