import type { State } from '../../../shared/state.ts';
import type { Quantity } from '../../../shared/vessel/view.ts';
import { ageOf } from '../../ages.ts';
import { age, clock } from '../../format.ts';
import { trusted } from '../../live.ts';
import { words } from '../../words.ts';

const QUANTITIES = Object.keys(words.instruments.quantity) as Quantity[];

/** Which sentence of which input serves each quantity now, and how old it is. */
export function Sources({ state }: { state: State }) {
  const doubt = state.vessel.positionDoubt;
  return (
    <section>
      <h2>{words.instruments.quantities}</h2>
      {doubt && <p class="care">{words.instruments.doubt(doubt.reason, clock(doubt.since))}</p>}
      <dl class="sources">
        {QUANTITIES.map((quantity) => {
          const seconds = ageOf(state, quantity);
          const source = state.vessel.sources[quantity];
          return (
            <div key={quantity}>
              <dt>{words.instruments.quantity[quantity]}</dt>
              <dd>
                <span>{source ?? words.instruments.noSource}</span>
                <span class="age">
                  {!trusted.value
                    ? words.age.lost
                    : seconds === undefined
                      ? words.age.never
                      : words.age.ago(age(seconds))}
                </span>
              </dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}
