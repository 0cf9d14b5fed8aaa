import { fromKnots } from '../../../shared/quantities/units.ts';
import type { State } from '../../../shared/state.ts';
import * as commands from '../../commands.ts';
import { joined, speed } from '../../format.ts';
import { aroundWords as words } from '../../words/around.ts';
import { Told, useAsking } from '../asking.tsx';

/** Knots more than now, and degrees of shift from now, that people commonly want to be told of (common practice, no source). */
const MORE = [5, 10];
const SHIFTS = [30, 60];

/** Limits of the wind relative to what it is now: one tap before turning in. */
export function WindToCome({ state: { vessel, watch } }: { state: State }) {
  const asking = useAsking();
  const now = vessel.windGround?.value.speed;
  const { windAbove, windShift } = watch.limits;
  const set = (limits: { windAbove: number } | { windShift: number }) => () =>
    asking.run(() => commands.changeWatch({ limits }));
  return (
    <section>
      <h3>{words.windToCome}</h3>
      {now === undefined ? (
        <p class="note">{words.noWind}</p>
      ) : (
        <div class="actions">
          {MORE.map((knots) => (
            <button
              key={knots}
              type="button"
              disabled={asking.busy}
              onClick={set({ windAbove: Math.round((now + fromKnots(knots)) * 10) / 10 })}
            >
              {words.above(joined(speed(fromKnots(knots))))}
            </button>
          ))}
          {SHIFTS.map((degrees) => (
            <button key={degrees} type="button" disabled={asking.busy} onClick={set({ windShift: degrees })}>
              {words.shift(degrees)}
            </button>
          ))}
        </div>
      )}
      {(windAbove !== undefined || windShift !== undefined) && (
        <p class="note">
          {[
            windAbove !== undefined && words.aboveNow(joined(speed(windAbove))),
            windShift !== undefined && words.shift(windShift),
          ]
            .filter(Boolean)
            .join(' ')}
        </p>
      )}
      <Told asking={asking} done={words.kept} />
    </section>
  );
}
