import type { OwnLack } from '../../phone/health.ts';
import { staysOn, wakeLock } from '../../phone/wake.ts';
import { phoneWords as words } from '../../words/phone.ts';

/** What is missing before this device would wake somebody, with what mends it. */
export function Mends({ lacks }: { lacks: readonly OwnLack[] }) {
  return (
    <ul class="mends">
      {lacks.map((lack) => (
        <li key={lack}>
          {lack === 'wake-lock' && wakeLock.value === 'absent' && !isSecureContext
            ? words.insecure
            : words.mend[lack]}
          {lack === 'wake-lock' && <NeverLocks />}
        </li>
      ))}
    </ul>
  );
}

/** A person's word in place of the browser's lock; it can be taken back in the details. */
export function NeverLocks() {
  return (
    <label class="check">
      <input
        type="checkbox"
        checked={staysOn.value}
        onChange={(event) => {
          staysOn.value = event.currentTarget.checked;
        }}
      />
      <span>{words.neverLocks}</span>
    </label>
  );
}
