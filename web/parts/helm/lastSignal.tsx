import type { WeighView } from '../../../shared/weigh/view.ts';
import { age } from '../../format.ts';
import { now } from '../../live.ts';
import { sound, unlock } from '../../sound.ts';
import { signalInWords } from '../../words/foredeck.ts';
import { helmWords as words } from '../../words/helm.ts';
import { SignalSign } from './signalSign.tsx';
import { acknowledgeStop, stopStanding, useShown, useStopSound } from './standing.ts';
import { soundSignal } from './voices.ts';

type Told = NonNullable<WeighView['lastSignal']>;

/** The foredeck's last signal, at the top of everything; a STOP takes the whole screen. */
export function LastSignal({ weigh: { lastSignal } }: { weigh: WeighView }) {
  const stop = stopStanding.value;
  useShown(lastSignal);
  useStopSound(stop !== undefined);
  return (
    <>
      <section class="last-signal" aria-label={words.signal.label}>
        {lastSignal ? (
          <Line key={`${lastSignal.number}`} told={lastSignal} />
        ) : (
          <p class="word">{words.signal.none}</p>
        )}
        {sound.value !== 'running' && (
          <button
            type="button"
            class="no-sound"
            onClick={() => void unlock().then(() => soundSignal('ahead'))}
          >
            {words.noSound}
          </button>
        )}
      </section>
      {stop && (
        <section class="stop-over" role="alertdialog" aria-label={words.signal.stop}>
          <SignalSign signal="stop" />
          <p class="stop-word">{words.signal.stop}</p>
          <p>{words.signal.from(stop.by, age(now.value - stop.at))}</p>
          <div class="since">
            {lastSignal && lastSignal.number !== stop.number && (
              <>
                <span>{words.signal.since}</span>
                <Line told={lastSignal} />
              </>
            )}
          </div>
          <button type="button" onClick={acknowledgeStop}>
            {words.signal.acknowledge}
          </button>
        </section>
      )}
    </>
  );
}

function Line({ told }: { told: Told }) {
  return (
    <div class={told.signal === 'stop' || told.signal === 'foul' ? 'line loud' : 'line'}>
      <SignalSign signal={told.signal} />
      <div class="said">
        <p class="word">{signalInWords(told.signal)}</p>
        <p class="ago">{words.signal.ago(age(now.value - told.at))}</p>
      </div>
    </div>
  );
}
