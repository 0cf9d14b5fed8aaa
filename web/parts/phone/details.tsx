import { arm, armed, disarm } from '../../phone/arming.ts';
import { vibration } from '../../phone/vibration.ts';
import { staysOn, wakeLock } from '../../phone/wake.ts';
import { phoneWords as words } from '../../words/phone.ts';
import { Hold } from '../hold.tsx';
import { NeverLocks } from './mends.tsx';
import { detailsOpen } from './open.ts';

/** What is worth knowing once, and how to disarm: held, so that no sleepy hand does it. */
export function Details() {
  return (
    <div class="phone-details">
      <p class="note">
        {words.lasting} {words.vibration[vibration.value]} {words.notAlone}
      </p>
      {(staysOn.value || wakeLock.value !== 'held') && <NeverLocks />}
      <div class="answers">
        <button type="button" onClick={arm}>
          {words.again}
        </button>
        {armed.value && (
          <Hold
            onHeld={() => {
              detailsOpen.value = false;
              disarm();
            }}
          >
            {words.disarm}
          </Hold>
        )}
      </div>
    </div>
  );
}
