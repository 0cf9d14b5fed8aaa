import { useEffect } from 'preact/hooks';
import { armed } from '../../phone/arming.ts';
import { keepAwake, letSleep } from '../../phone/wake.ts';

/** While this part is shown the screen stays on, where the browser allows it: nobody unlocks a phone with wet gloves. */
export function useAwake(): void {
  useEffect(() => {
    keepAwake();
    return () => {
      if (!armed.peek()) letSleep();
    };
  }, []);
}
