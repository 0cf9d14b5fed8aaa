import { arm, armed } from '../../phone/arming.ts';
import { wakes } from '../../phone/health.ts';
import { phoneWords as words } from '../../words/phone.ts';
import { SoundIcon } from '../icons.tsx';
import { detailsOpen } from './open.ts';

/** In the header: how this device stands as an alarm. A tap arms it, and unfolds the details once it is armed. */
export function PhoneSign() {
  const bad = armed.value && !wakes.value;
  return (
    <button
      type="button"
      class={bad ? 'phone-sign bad' : 'phone-sign'}
      aria-label={
        armed.value
          ? wakes.value
            ? words.wakes
            : words.wakesNotShort
          : `${words.notArmedShort}: ${words.arm}`
      }
      aria-expanded={detailsOpen.value}
      onClick={() => {
        if (!armed.value) arm();
        detailsOpen.value = armed.value && !detailsOpen.value;
        document.querySelector('.scroll')?.scrollTo(0, 0);
      }}
    >
      <SoundIcon on={wakes.value} />
    </button>
  );
}
