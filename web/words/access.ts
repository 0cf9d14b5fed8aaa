import type { Role } from '../../shared/access.ts';

const MAY: Record<Role, string> = {
  look: 'look only',
  acknowledge: 'look, silence and acknowledge',
  command: 'command',
};

/** Every word about who may do what. */
export const accessWords = {
  title: 'Phones',
  may: MAY,
  lookOnly: (role: Role) => `This screen may ${MAY[role]}.`,
  pairHere: 'Pair it',
  own: {
    title: 'This screen',
    paired: (name: string, role: Role) => `Paired as “${name}”: it may ${MAY[role]}.`,
    unpaired: (role: Role) => `Not paired: it may ${MAY[role]}.`,
    byPlace: 'It runs on the boat’s computer, which may command without being paired.',
    barred: 'Not paired: on this boat only paired screens may look.',
    giveBack: 'Forget this screen',
    givenBack: 'This screen is paired no more.',
  },
  pair: {
    title: 'Pair this screen',
    how: 'The code is on the page “Phones” of a screen that may command, or comes from “hawse pair” on the boat’s computer. It is good for ten minutes and one screen.',
    code: 'Code',
    codeHint: 'Eight letters and digits; none of I, L, O, U, 0, 1',
    name: 'Name of this screen',
    nameHint: 'Its commands stand in the log under this name',
    go: 'Pair',
    done: 'Paired.',
    needsCode: 'Type the code.',
    needsName: 'Give this screen a name.',
    notKept:
      'The boat has paired this screen, but its browser did not keep the key: allow cookies for this page.',
  },
  open: {
    title: 'Pair another screen',
    role: 'It shall be able to',
    show: 'Show a code',
    anew: 'Another code',
    left: (minutes: number, role: Role) => `Good for one screen, ${minutes} min more; that may ${MAY[role]}.`,
    scan: 'Scan this with the other phone, on the boat’s Wi-Fi, or type the code on its page “Phones”.',
    qr: 'QR code of the address below',
    none: 'No other machine can reach this one: it listens on its own address only.',
    end: 'Take the code back',
  },
  list: {
    title: 'Paired',
    none: 'Nothing is paired.',
    own: 'this screen',
    lastUsed: (when: string) => `last used ${when}`,
    neverUsed: 'not used since it was paired',
    takeAway: 'Take the key away',
    taken: (name: string) => `“${name}” opens nothing any more.`,
  },
} as const;
