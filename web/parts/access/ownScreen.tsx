import { barred, bearer, role } from '../../live.ts';
import { accessWords } from '../../words/access.ts';
import { Told, useAsking } from '../asking.tsx';
import { Hold } from '../hold.tsx';
import { giveBack } from './calls.ts';

const words = accessWords.own;

/** What this screen may do, and why. */
export function OwnScreen() {
  const asking = useAsking('look');
  const name = bearer.value;
  return (
    <section>
      <h2>{words.title}</h2>
      <p>{standing(name)}</p>
      {name !== undefined && (
        <div class="actions">
          <Hold disabled={asking.busy} onHeld={() => asking.run(giveBack)}>
            {words.giveBack}
          </Hold>
        </div>
      )}
      <Told asking={asking} done={words.givenBack} />
    </section>
  );
}

function standing(name: string | undefined): string {
  if (barred.value) return words.barred;
  if (name !== undefined) return words.paired(name, role.value);
  return role.value === 'command' ? words.byPlace : words.unpaired(role.value);
}
