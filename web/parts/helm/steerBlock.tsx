import type { State } from '../../../shared/state.ts';
import { bearing, joined, speed } from '../../format.ts';
import { told } from '../../told.ts';
import { helmWords as words } from '../../words/helm.ts';
import { type Steering, steeringOf } from './steer.ts';

/** Where to point: side by shape, by word and by where the word stands; how far; and on a scale that shrinks with the distance. */
export function SteerBlock({ state }: { state: State }) {
  const { weigh } = state;
  const steering = steeringOf(state);
  if (weigh?.brokenOut)
    return (
      <section class="steer" aria-label={words.steer.label}>
        <p class="asked">
          {isAdrift(state)
            ? words.steer.adrift
            : weigh.brokenOut.from === 'foredeck'
              ? words.steer.free
              : words.steer.freeProbably}
        </p>
        {weigh.adrift && (
          <p class="why">
            {words.steer.goes(joined(speed(weigh.adrift.speed, true)), bearing(weigh.adrift.toward))}
          </p>
        )}
      </section>
    );
  if (!steering)
    return (
      <section class="steer" aria-label={words.steer.label}>
        <p class="asked none">{words.steer.none}</p>
        <p class="why">{told(weigh?.noGuidance ?? words.steer.unknown)}</p>
      </section>
    );
  const { side, turn, course, sigma } = steering;
  return (
    <section class={`steer ${side ?? 'unknown'}`} aria-label={words.steer.label}>
      <p class="asked">
        {side && side !== 'steady' && <Arrow side={side} />}
        <span class="turn">{turn === undefined ? bearing(course) : `${Math.round(Math.abs(turn))}°`}</span>
        <span class="side">{side ? words.steer[side] : words.steer.to('').trim()}</span>
      </p>
      <p class="why">
        {steering.roundFirst && <strong>{words.steer.round}: </strong>}
        {side ? words.steer.to(bearing(course)) : words.steer.noHeading}{' '}
        {sigma !== undefined && words.steer.sure(Math.ceil(2 * sigma))}
      </p>
      {side && <Scale steering={steering} />}
    </section>
  );
}

/** Free and moving is adrift only when the boat says so: she may be leaving under her engine. */
const isAdrift = ({ alerts }: State): boolean =>
  alerts.some(
    ({ kind, state }) => kind === 'adrift' && state !== 'normal' && state !== 'rectified-unacknowledged',
  );

function Arrow({ side }: { side: 'port' | 'starboard' }) {
  // Port: one blunt arrow. Starboard: a double one. The ticks have the same: one knock, and two.
  return (
    <svg class="side-arrow" viewBox="0 0 40 40" aria-hidden="true">
      {side === 'port' ? (
        <path d="M22 3L3 20L22 37V27H38V13H22Z" />
      ) : (
        <path d="M6 3L22 20L6 37V28L12 20L6 12ZM20 3L38 20L20 37V28L27 20L20 12Z" />
      )}
    </svg>
  );
}

const HALF = 100;

/** Bow in the middle; the course to steer as a block as broad as it is unsure; what is near enough, as a frame. */
function Scale({ steering: { turn, band, full, sigma } }: { steering: Steering }) {
  const x = (degrees: number) => Math.max(-HALF, Math.min(HALF, (HALF * degrees) / full));
  const spread = 2 * (sigma ?? 0);
  return (
    <svg class="steer-scale" viewBox="-104 0 208 20" preserveAspectRatio="none" aria-hidden="true">
      <path class="ground" d={`M-${HALF} 10H${HALF}`} />
      <rect class="band" x={x(-band)} y="3" width={x(band) - x(-band)} height="14" />
      {turn !== undefined && (
        <>
          <rect
            class="spread"
            x={x(turn - spread)}
            y="5"
            width={Math.max(1, x(turn + spread) - x(turn - spread))}
            height="10"
          />
          <rect class="wanted" x={x(turn) - 2.5} y="1" width="5" height="18" />
        </>
      )}
      <path class="bow-now" d="M0 0V20" />
    </svg>
  );
}
