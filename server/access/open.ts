import { type KeyRing, type KeyRingPorts, OLD_KEY, openKeyRing } from './keys.ts';
import { createPairing, type Pairing } from './pairing.ts';

/** Keys and pairing of a data folder. */
export interface Access {
  keys: KeyRing;
  pairing: Pairing;
  /** Opens the pairing at a start where nobody could otherwise get in, or nobody has yet. */
  openAtStart(thisComputerCommands: boolean): ReturnType<Pairing['current']>;
}

export function openAccess(folder: string, ports: KeyRingPorts): Access {
  const keys = openKeyRing(folder, ports);
  const pairing = createPairing(() => performance.now());
  return {
    keys,
    pairing,
    openAtStart(thisComputerCommands) {
      const paired = keys.list().some(({ name, role }) => role === 'command' && name !== OLD_KEY);
      // Whoever starts the daemon stands before the computer. Where it may not command over the network, this is the way in.
      return paired && thisComputerCommands ? undefined : pairing.open('command');
    },
  };
}
