import { useState } from 'preact/hooks';
import type { Fitted, Fitting } from '../../../shared/fitting/view.ts';
import { bearing, spread } from '../../format.ts';
import { setupWords as words } from '../../words/setup.ts';
import { put } from './draft.ts';

/** How many figures the data speak against. */
export const offersOf = ({ antennaAft, sounder, deviation }: Fitting): number =>
  [antennaAft.offer, sounder.offer, deviation.offer].filter((offer) => offer !== undefined).length;

const metres = (value: number): string => `${value.toFixed(1)}\u00a0m`;
const told = ({ told: value }: Fitted): string => (value === undefined ? words.untold : metres(value));
const signed = (value: number): string => `${value >= 0 ? '+' : '−'}${Math.abs(value).toFixed(1)}°`;

/** Figures beside what the data say of them. An offer fills the form; nothing is changed by it. */
export function Compare({ fitting, locked }: { fitting: Fitting; locked: boolean }) {
  const { antennaAft, sounder, deviation } = fitting;
  return (
    <section class="compare">
      <h2>{words.compare}</h2>
      <p class="note">{words.compareAbout}</p>
      <One
        fitted={antennaAft}
        name="boat.antenna.aftOfRoller"
        locked={locked}
        says={({ value, sigma }) => words.antennaAft(told(antennaAft), metres(value), spread(sigma))}
      />
      <One
        fitted={sounder}
        name="boat.sounder.belowWaterline"
        locked={locked}
        says={({ value }) => words.sounder(told(sounder), metres(value))}
      />
      <article>
        <h3>{words.compass}</h3>
        {deviation.sectors.map(({ heading, left }) => (
          <p key={heading}>
            {words.sector(bearing(heading), signed(left.value), `± ${(2 * left.sigma).toFixed(0)}°`)}
          </p>
        ))}
        {deviation.unknown && <p class="note">{deviation.unknown}</p>}
        {deviation.offer && (
          <Take
            label={words.takeCard}
            locked={locked}
            take={() => put('watch.deviation', deviation.offer!)}
          />
        )}
      </article>
      <p class="note">{words.cannot}</p>
    </section>
  );
}

interface OneProps {
  fitted: Fitted;
  name: keyof typeof words.fields;
  locked: boolean;
  says: (estimate: NonNullable<Fitted['estimate']>) => string;
}

function One({ fitted, name, locked, says }: OneProps) {
  const { estimate, offer, unknown } = fitted;
  return (
    <article>
      <h3>{words.fields[name].label}</h3>
      {estimate && <p class={offer === undefined ? '' : 'care'}>{says(estimate)}</p>}
      {estimate && offer === undefined && <p class="note">{words.agree}</p>}
      {unknown && <p class="note">{unknown}</p>}
      {offer !== undefined && (
        <Take
          label={words.take(metres(offer))}
          locked={locked}
          take={() => put(name, `${offer.toFixed(1)} m`)}
        />
      )}
    </article>
  );
}

function Take({ label, locked, take }: { label: string; locked: boolean; take: () => void }) {
  const [taken, setTaken] = useState(false);
  return (
    <>
      <button
        type="button"
        disabled={locked}
        onClick={() => {
          take();
          setTaken(true);
        }}
      >
        {label}
      </button>
      {taken && <p role="status">{words.taken}</p>}
    </>
  );
}
