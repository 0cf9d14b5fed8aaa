import type { OutputView } from '../../shared/outputs.ts';

/** Every word about the horn, and about what this page's address withholds. */
export const hornWords = {
  title: 'The horn',
  none: 'Alerts leave the boat’s computer by pages only. A phone may fail you: list a horn in hawse.yaml under raise.',
  about: 'How alerts leave the boat’s computer, whatever page is open.',
  kinds: {
    command: 'program',
    serial: 'sentences',
    udp: 'sentences',
    webhook: 'message',
  } satisfies Record<OutputView['kind'], string>,
  states: { on: 'tells an alert now', failing: 'FAILS', ready: 'ready', untested: 'not proved yet' },
  failed: (time: string, why: string) => `Failed at ${time}: ${why}.`,
  worked: (time: string) => `Worked at ${time}.`,
  tested: (time: string, by: string, detail: string) => `Tested at ${time} by ${by}: ${detail}`,
  test: 'Test the horn',
  testing: 'Sounding…',
  testHint: 'Every one of them sounds or speaks for 2 s. Say so to whoever sleeps.',
  testDone: 'All of them did their work. Did you hear it?',
};

export const originWords = {
  title: 'This address',
  plain:
    'Plain http: here the browser does not keep the screen awake, does not open when the boat’s computer is down, and shows no notifications.',
  untrusted:
    'https, but this browser does not trust the boat’s certificate: the warning was clicked away. So it does not keep these pages for when the boat’s computer is down, and Safari refuses the live figures.',
  lead: 'Let this device trust the boat',
};
