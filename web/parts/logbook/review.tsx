import { useEffect } from 'preact/hooks';
import type { Night } from '../../../shared/logbook/night.ts';
import { told } from '../../told.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { Distance } from '../distance.tsx';
import { Figures } from '../figures.tsx';
import { SideNow } from '../lying/sideNow.tsx';
import { Plan } from '../plan/plan.tsx';
import { About } from './about.tsx';
import { AlertList } from './alertList.tsx';
import { liveAgain, living, livingTrouble, loaded, type Opened, past, pastTrack, seen } from './opened.ts';
import { heard, sampleAt } from './pastState.ts';
import { keepPlaying } from './play.ts';
import { Running } from './running.tsx';
import { Sampled } from './sampled.tsx';
import { deadTimes } from './strips.ts';
import { TimeBar } from './timeBar.tsx';
import { WhatIfPanel } from './whatIf.tsx';
import { day, second } from './when.ts';

/** A night that is over, seen again. Every part of it says that it is past. */
export function Review({ found, back }: { found: Opened; back: () => void }) {
  useEffect(keepPlaying, []);
  const { night } = found;
  return (
    <div class="review">
      <div class="past-band">
        <p>
          <strong>
            {found.from === 'file'
              ? words.pastFile(found.name)
              : words.past(
                  day(night.summary.from),
                  night.summary.place ?? night.summary.simulated ?? words.unnamed,
                )}
          </strong>{' '}
          {words.notNow}
        </p>
        <button type="button" onClick={back}>
          {words.back}
        </button>
      </div>
      <div class="then">
        <Moment night={night} />
      </div>
      <div class="panels">
        <AlertList night={night} />
        <WhatIfPanel found={found} />
        <About found={found} />
      </div>
      <TimeBar night={night} />
    </div>
  );
}

/** Plan, side view and figures of the moment that the time bar points to. */
function Moment({ night }: { night: Night }) {
  const now = past.value!;
  const { state, exact } = now;
  const sample = exact || !sampleAt(night, seen.value) ? undefined : heard(night, seen.value);
  const dead = deadTimes(night.gaps).find(
    (gap) => gap.from <= seen.value && seen.value < (gap.to ?? night.summary.upTo),
  );
  return (
    <>
      {dead && (
        <p class="dead-now trouble">
          {words.gapNow(
            dead.why ?? words.gaps[dead.kind],
            second(dead.from),
            second(dead.to ?? night.summary.to ?? night.summary.upTo),
          )}
        </p>
      )}
      {exact ? (
        <>
          <p class="label-then">{words.saidThen}</p>
          <p class="report">{told(state.report)}</p>
          <Distance state={state} />
        </>
      ) : (
        !sample && !dead && <p class="care">{words.noSample}</p>
      )}
      <Plan
        state={state}
        points={pastTrack.value}
        note={exact || !state.vessel.roller ? undefined : words.sampled(night.step)}
      />
      <SideNow state={state} />
      {exact ? <Figures state={state} /> : sample && <Sampled night={night} sample={sample} />}
      <Exactness exact={exact} />
    </>
  );
}

function Exactness({ exact }: { exact: boolean }) {
  const run = living.value;
  if (loaded.value)
    return (
      <p class="note exactness">
        {exact ? words.exact : ''} {!loaded.value.exact && words.exactNotQuite}
      </p>
    );
  return (
    <div class="exactness">
      {run ? (
        <p role="status">
          <Running progress={run.progress} />{' '}
          <button type="button" onClick={run.asked.cancel}>
            {words.stop}
          </button>
        </p>
      ) : (
        <>
          <button type="button" onClick={() => void liveAgain()}>
            {words.live}
          </button>
          <p class="note">{words.liveHint}</p>
        </>
      )}
      {livingTrouble.value && <p class="trouble">{livingTrouble.value}</p>}
    </div>
  );
}
