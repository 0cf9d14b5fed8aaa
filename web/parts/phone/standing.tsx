import { computed } from '@preact/signals';
import { armed, arming } from '../../phone/arming.ts';
import { battery } from '../../phone/battery.ts';
import { missing, wakes } from '../../phone/health.ts';
import { percent, phoneWords as words } from '../../words/phone.ts';
import { ArmedPhones } from './armedPhones.tsx';
import { Asked, NotArmed } from './asked.tsx';
import { Details } from './details.tsx';
import { Mends } from './mends.tsx';
import { detailsOpen } from './open.ts';

const standing = computed<'off' | 'ok' | 'bad'>(() => (armed.value ? (wakes.value ? 'ok' : 'bad') : 'off'));

/** On every page: whether this device would wake somebody now, what to mend if not, and which others are armed. */
export function Standing() {
  return (
    <section class={`phone ${standing.value}`} aria-label={words.region}>
      {arming.value !== 'idle' ? <Asked /> : armed.value ? <Now /> : <NotArmed />}
      <ArmedPhones />
      {detailsOpen.value && <Details />}
    </section>
  );
}

function Now() {
  const charge = battery.value;
  const level = charge && percent(charge.level);
  return (
    <>
      <button
        type="button"
        class="phone-now"
        aria-expanded={detailsOpen.value}
        onClick={() => {
          detailsOpen.value = !detailsOpen.value;
        }}
      >
        <Sign ok={wakes.value} />
        <strong>{wakes.value ? words.wakes : words.wakesNot}</strong>
        {level && <small>{charge.charging ? words.onCharge(level) : words.onBattery(level)}</small>}
        <span class="unseen">{words.details}</span>
      </button>
      {missing.value.length > 0 && <Mends lacks={missing.value} />}
    </>
  );
}

/** A tick in a ring, or a cross in a square: told by shape, not by colour. */
function Sign({ ok }: { ok: boolean }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
      {ok ? <circle cx="12" cy="12" r="10" /> : <path d="M3 3H21V21H3Z" />}
      <path d={ok ? 'M7 12.5L10.5 16L17 8.5' : 'M8 8L16 16M16 8L8 16'} />
    </svg>
  );
}
