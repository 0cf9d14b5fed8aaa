import { signal } from '@preact/signals';
import type { WeighView } from '../../../shared/weigh/view.ts';
import * as commands from '../../commands.ts';
import { mayCommand, shown } from '../../live.ts';
import { sound, unlock } from '../../sound.ts';
import { helmWords as words } from '../../words/helm.ts';
import { Told, useAsking } from '../asking.tsx';
import { Hold } from '../hold.tsx';
import { ticking } from './ticks.ts';

/** The way out of the weighing, away from the hand until it is asked for. */
const ending = signal(false);

export function Actions({ weigh }: { weigh: WeighView }) {
  const asking = useAsking();
  const hasWind = shown.value?.vessel.windApparent !== undefined;
  const silent = ticking.value && sound.value !== 'running';
  return (
    <div class="actions">
      <button
        type="button"
        disabled={asking.busy || !hasWind}
        onClick={() => asking.run(() => commands.holdWind())}
      >
        {words.do.hold}
      </button>
      <button
        type="button"
        disabled={asking.busy || !weigh.held}
        onClick={() => asking.run(() => commands.holdWind(null))}
      >
        {words.do.letGo}
      </button>
      <button
        type="button"
        aria-pressed={ticking.value}
        onClick={() => {
          ticking.value = !ticking.value;
          void unlock();
        }}
      >
        {words.do.ticks}{' '}
        <small>{silent ? words.do.silent : ticking.value ? words.do.on : words.do.off}</small>
      </button>
      <button
        type="button"
        aria-expanded={ending.value}
        onClick={() => {
          ending.value = true;
        }}
      >
        {words.do.end}
      </button>
      {asking.trouble && <Told asking={asking} />}
    </div>
  );
}

/** Over plan and figures; each of it must be held for a second. */
export function Ending() {
  const asking = useAsking();
  if (!ending.value) return null;
  const close = () => {
    ending.value = false;
  };
  const run = (command: () => Promise<commands.Outcome>) => () => void asking.run(command).then(close);
  return (
    <section class="ending">
      <Hold disabled={!mayCommand.value || asking.busy} onHeld={run(commands.aweigh)}>
        {words.do.aweigh}
      </Hold>
      <Hold disabled={!mayCommand.value || asking.busy} onHeld={run(commands.stopWeighing)}>
        {words.do.stop}
      </Hold>
      <button type="button" onClick={close}>
        {words.do.back}
      </button>
      <Told asking={asking} />
    </section>
  );
}
