import type { WeighView } from '../../../shared/weigh/view.ts';
import { length } from '../../format.ts';
import { foredeckWords as words } from '../../words/foredeck.ts';
import { pending } from './pending.ts';
import { Target } from './target.tsx';

const HOURS = [9, 10, 11, 12, 1, 2, 3] as const;

/** Half a clock round the bow: one points where the cable leads. In its middle, what is known of the cable. */
export function Compass({ weigh }: { weigh: WeighView }) {
  const { lead } = weigh;
  return (
    <section class="compass" aria-label={words.leads}>
      {HOURS.map((hour) => (
        <Target
          key={hour}
          signal={`lead:${hour}`}
          class={lead?.clock === hour ? `hour at-${hour} reckoned` : `hour at-${hour}`}
        >
          {hour}
        </Target>
      ))}
      <svg class="bow" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
        <path d="M2 100C2 52 22 12 50 2C78 12 98 52 98 100" />
      </svg>
      <CableNow weigh={weigh} />
      <Target signal="foul" class="foul" />
    </section>
  );
}

/** How much is out, and how the cable stands. A figure that is on its way to the helm stands inverse. */
function CableNow({ weigh }: { weigh: WeighView }) {
  const { out, stay, cable } = weigh;
  const told = pending.value;
  const metres = told ?? out?.value;
  const figure = metres === undefined ? undefined : length(metres);
  const stayIs = stay && words.stay[stay.name];
  return (
    <div class="cable-now">
      <p class={told === undefined ? 'length' : 'length pending'}>
        {figure ? (
          <>
            {told === undefined && out?.from === 'bounds' && '≤'}
            {figure.figure}
            <span class="unit">
              {figure.unit} {words.out}
            </span>
          </>
        ) : (
          words.outUnknown
        )}
      </p>
      {stayIs && <p>{stay.certainty < 0.75 || stay.from === 'distance' ? words.probably(stayIs) : stayIs}</p>}
      <p>{cable && cable.certainty >= 0.6 ? words.cable[cable.state] : words.cableUnknown}</p>
    </div>
  );
}
