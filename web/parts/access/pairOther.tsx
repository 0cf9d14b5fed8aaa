import { useState } from 'preact/hooks';
import { ROLES, type Role } from '../../../shared/access.ts';
import type { PairingAnswer } from '../../../shared/messages.ts';
import { accessWords } from '../../words/access.ts';
import { Told, useAsking } from '../asking.tsx';
import { endCode, keys, showCode } from './calls.ts';
import { Qr } from './qr.tsx';

const words = accessWords.open;

/** A code for another screen, as letters and as QR. */
export function PairOther() {
  const asking = useAsking();
  const [role, setRole] = useState<Role>('command');
  const open = keys.value?.pairing;
  return (
    <section>
      <h2>{words.title}</h2>
      {open ? <Code open={open} /> : <RoleChoice role={role} onRole={setRole} />}
      <div class="actions">
        <button type="button" disabled={asking.busy} onClick={() => asking.run(() => showCode(role))}>
          {open ? words.anew : words.show}
        </button>
        {open && (
          <button type="button" disabled={asking.busy} onClick={() => asking.run(endCode)}>
            {words.end}
          </button>
        )}
      </div>
      <Told asking={asking} />
    </section>
  );
}

function RoleChoice({ role, onRole }: { role: Role; onRole: (role: Role) => void }) {
  return (
    <fieldset class="choice roles">
      <legend>{words.role}</legend>
      {[...ROLES].reverse().map((one) => (
        <label key={one}>
          <input type="radio" name="role" checked={one === role} onChange={() => onRole(one)} />
          <span>{accessWords.may[one]}</span>
        </label>
      ))}
    </fieldset>
  );
}

function Code({ open }: { open: PairingAnswer }) {
  const [address] = open.addresses;
  return (
    <>
      <p class="pair-code">{open.code}</p>
      <p>{words.left(Math.max(1, Math.round(open.seconds / 60)), open.role)}</p>
      {address === undefined ? (
        <p class="care">{words.none}</p>
      ) : (
        <>
          <p class="note">{words.scan}</p>
          <Qr text={address} label={words.qr} />
          <p class="pair-address">{address}</p>
        </>
      )}
    </>
  );
}
