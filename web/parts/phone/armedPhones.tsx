import { lacks } from '../../../shared/phone.ts';
import type { PageView } from '../../../shared/state.ts';
import { clock } from '../../format.ts';
import { shown } from '../../live.ts';
import { phoneWords as words } from '../../words/phone.ts';

/** The armed phones on board, by name: who would be woken, and whose phone would wake nobody. Absent while none is armed. */
export function ArmedPhones() {
  const phones = (shown.value?.pages ?? []).filter(({ armed }) => armed);
  if (phones.length === 0) return null;
  return (
    <p class="armed-phones">
      <span class="note">{words.armedHere}:</span>
      {phones.map((phone) => (
        <Phone key={phone.id} phone={phone} />
      ))}
    </p>
  );
}

function Phone({ phone }: { phone: PageView }) {
  const [lack] = lacks(phone);
  const since = lack === 'silent' ? ` (${clock(phone.lastAt)})` : '';
  return (
    <span class={lack ? 'armed-phone bad' : 'armed-phone'}>
      <strong>{phone.name || phone.page}</strong> {lack ? words.lack[lack] + since : words.ready}
    </span>
  );
}
