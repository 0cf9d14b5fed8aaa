import { useState } from 'preact/hooks';
import { screenName } from '../../prefs.ts';
import { accessWords } from '../../words/access.ts';
import { Told, useAsking } from '../asking.tsx';
import { Field } from '../field.tsx';
import { pair } from './calls.ts';

const words = accessWords.pair;

/** The code that came with the address, behind the #. It is taken out of the address, which people show around. */
function codeTold(): string {
  const told = decodeURIComponent(location.hash.slice(1));
  if (!/^[\w-]{8,12}$/.test(told)) return '';
  history.replaceState(null, '', location.pathname);
  return told;
}

/** Type the code, get a key. */
export function PairThis() {
  const asking = useAsking('look');
  const [code, setCode] = useState(codeTold);
  const submit = (event: Event) => {
    event.preventDefault();
    const name = screenName.peek().trim();
    if (code.trim() === '') asking.say(words.needsCode);
    else if (name === '') asking.say(words.needsName);
    else void asking.run(() => pair(code, name));
  };
  return (
    <section>
      <h2>{words.title}</h2>
      <p class="note">{words.how}</p>
      <form class="pair-this" onSubmit={submit} noValidate>
        <Field text label={words.code} value={code} onChange={setCode} hint={words.codeHint} />
        <Field
          text
          label={words.name}
          value={screenName.value}
          onChange={(name) => {
            screenName.value = name.slice(0, 40);
          }}
          hint={words.nameHint}
        />
        <button type="submit" class="primary" disabled={asking.busy}>
          {words.go}
        </button>
      </form>
      <Told asking={asking} done={words.done} />
    </section>
  );
}
