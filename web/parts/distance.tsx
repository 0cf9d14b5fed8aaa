import type { State } from '../../shared/state.ts';
import { ageOf, stands } from '../ages.ts';
import { age, joined, length, spread } from '../format.ts';
import { words } from '../words.ts';

/** The page's one dominant figure: roller to anchor, with its spread, its age, and how it stands to the circle. */
export function Distance({ state }: { state: State }) {
  const { distance, circle } = state.watch;
  const fixAge = ageOf(state, 'position');
  const text = distance && length(distance.value);
  const missing = !stands(state)
    ? words.age.lost
    : fixAge === undefined
      ? words.age.never
      : words.age.fix(age(fixAge));
  return (
    <section class="distance" aria-label={words.figures.distance}>
      <p class={text ? 'dominant' : 'dominant missing'}>
        {text ? text.figure : words.unknown}
        <span class="unit">{text ? ` ${text.unit}` : ''}</span>
      </p>
      <div class="beside">
        <p class="label">{words.figures.distance}</p>
        <p>
          {distance && `${spread(distance.sigma)} · `}
          {distance && fixAge !== undefined ? words.age.fix(age(fixAge)) : missing}
        </p>
        {distance && circle ? (
          <Standing distance={distance.value} radius={circle.radius} />
        ) : (
          <p>{circle ? words.circle.of(joined(length(circle.radius))) : words.circle.none}</p>
        )}
      </div>
    </section>
  );
}

function Standing({ distance, radius }: { distance: number; radius: number }) {
  const room = radius - distance;
  const say = room >= 0 ? words.circle.inside : words.circle.outside;
  return (
    <>
      <p class={room < 0 ? 'strong' : undefined}>{say(joined(length(Math.abs(room))))}</p>
      <Gauge share={distance / radius} />
    </>
  );
}

/** How much of the circle's radius is used; what lies beyond the mark is outside. */
function Gauge({ share }: { share: number }) {
  const full = 1.25;
  return (
    <svg class="gauge" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
      <rect class="room" width={100 / full} y="2" height="4" />
      <rect class="used" width={Math.min(share, full) * (100 / full)} y="2" height="4" />
      <path class="limit" d={`M${100 / full} 0V8`} vector-effect="non-scaling-stroke" />
    </svg>
  );
}
