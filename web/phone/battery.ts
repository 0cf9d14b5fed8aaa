import { signal } from '@preact/signals';

/** Whether this device is on charge, where the browser tells (Chrome, in a secure context); a phone off charge dies at four. */

export interface Battery {
  charging: boolean;
  /** 0..1 */
  level: number;
}

export const battery = signal<Battery | undefined>(undefined);

interface BatteryManager extends EventTarget {
  charging: boolean;
  level: number;
}

async function watch(): Promise<void> {
  const ask = (navigator as { getBattery?: () => Promise<BatteryManager> }).getBattery;
  if (!ask) return;
  try {
    const manager = await ask.call(navigator);
    const look = () => {
      battery.value = { charging: manager.charging, level: manager.level };
    };
    manager.addEventListener('chargingchange', look);
    manager.addEventListener('levelchange', look);
    look();
  } catch {
    // Refused by a policy of the browser: then it is not known, and nothing is claimed.
  }
}

void watch();
