import { arm, arming, heardIt, heardNothing } from '../../phone/arming.ts';
import { missing } from '../../phone/health.ts';
import { vibration } from '../../phone/vibration.ts';
import { phoneWords as words } from '../../words/phone.ts';
import { Mends } from './mends.tsx';

/** Before the act: what this device is not, with the tap that mends it. */
export function NotArmed() {
  return (
    <div class="phone-act">
      <p>{words.notArmed}</p>
      <button type="button" class="primary" onClick={arm}>
        {words.arm}
      </button>
    </div>
  );
}

/** The alarm was played: only the person can tell whether it was heard. */
export function Asked() {
  const unheard = arming.value === 'unheard';
  const lacking = missing.value.filter((lack) => lack === 'wake-lock' || lack === 'battery');
  return (
    <div class="phone-act asked">
      <p>
        {unheard ? words.unheard : vibration.value === 'taken' ? words.questionVibration : words.question}
      </p>
      {unheard ? (
        <button type="button" class="primary" onClick={arm}>
          {words.again}
        </button>
      ) : (
        <div class="answers">
          <button type="button" onClick={heardNothing}>
            {words.nothing}
          </button>
          <button type="button" class="primary" onClick={heardIt}>
            {words.heard}
          </button>
        </div>
      )}
      {lacking.length > 0 && <Mends lacks={lacking} />}
    </div>
  );
}
