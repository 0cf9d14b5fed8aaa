import { computed, effect, signal } from '@preact/signals';
import { useEffect, useLayoutEffect } from 'preact/hooks';
import type { WeighView } from '../../../shared/weigh/view.ts';
import { now, shown } from '../../live.ts';
import { visible } from '../../phone/visible.ts';
import { signalShown } from '../../reported.ts';
import { soundSignal } from './voices.ts';

type Told = NonNullable<WeighView['lastSignal']>;

/** A STOP stands until it is acknowledged here or another order comes; the last seen of all signals is beside it. */
export const stopStanding = signal<Told | undefined>(undefined);

const keyOf = (told: Told | undefined): string => (told ? `${told.number} ${told.at}` : '');
const last = computed(() => shown.value?.weigh?.lastSignal);
const lastKey = computed(() => keyOf(last.value));
/** Where the cable leads and how much is out is no order: such a word, often sent by itself, lifts no STOP. */
const isWordOnly = (signal: string): boolean => /^(?:lead|out):/.test(signal);

let acknowledged = '';

effect(() => {
  const key = lastKey.value;
  const told = last.peek();
  if (!told) stopStanding.value = undefined;
  else if (told.signal === 'stop') stopStanding.value = key === acknowledged ? undefined : told;
  else if (!isWordOnly(told.signal)) stopStanding.value = undefined;
});

export function acknowledgeStop(): void {
  acknowledged = keyOf(stopStanding.peek());
  stopStanding.value = undefined;
}

/** Older than this a signal is news to this screen only: it is shown and makes no sound, seconds. */
const NEWS = 10;

/**
 * Sounds a signal as its letters come on the screen, and tells the boat once they have been painted. A hidden page is not
 * painted: browsers call no frame then, and the boat hears nothing until somebody looks.
 */
export function useShown(told: Told | undefined): void {
  const key = keyOf(told);
  const inView = visible.value;
  useLayoutEffect(() => {
    if (told && now.peek() - told.at < NEWS) soundSignal(told.signal);
  }, [key]);
  useLayoutEffect(() => {
    if (!told || !inView) return;
    let after: ReturnType<typeof setTimeout> | undefined;
    const frame = requestAnimationFrame(() => {
      after = setTimeout(() => {
        if (document.visibilityState === 'visible') signalShown.value = told.number;
      });
    });
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(after);
    };
  }, [key, inView]);
}

const STOP_EVERY_MS = 2000;

/** While a STOP stands on this screen it is heard again and again. */
export function useStopSound(stands: boolean): void {
  useEffect(() => {
    if (!stands) return;
    const timer = setInterval(() => soundSignal('stop'), STOP_EVERY_MS);
    return () => clearInterval(timer);
  }, [stands]);
}
