import type { State } from '../../../shared/state.ts';
import type { Quantity } from '../../../shared/vessel/view.ts';
import { ageOf } from '../../ages.ts';
import { age, bearing, joined, length, speed } from '../../format.ts';
import { trusted } from '../../live.ts';
import { follow } from '../../router.ts';
import { setupWords as words } from '../../words/setup.ts';

export const DUTIES = Object.keys(words.duty) as Quantity[];

/** What the watch goes by and does not hear; what boats do without is not counted. */
export const missingOf = ({ vessel }: State): Quantity[] =>
  DUTIES.filter((duty) => vessel.sources[duty] === undefined && !words.needless.includes(duty));

/** Each quantity with its figure, where it comes from and what it serves; or what its absence means and what mends it. */
export function Duties({ state }: { state: State }) {
  return (
    <section>
      <h2>{words.duties}</h2>
      <ul class="duties">
        {DUTIES.map((duty) => (
          <Duty key={duty} duty={duty} state={state} />
        ))}
      </ul>
      <h3>{words.inputs}</h3>
      {state.inputs.length === 0 && <p class="care">{words.none}</p>}
      <ul class="duties">
        {state.inputs.map(({ id, up, detail, sentences, rejected }) => (
          <li key={id} class={up ? 'heard' : 'unheard'}>
            <strong>{id}</strong>
            <p class="note">
              {detail && `${detail} · `}
              {words.sentences(
                sentences.toLocaleString('en-GB'),
                (rejected.checksum + rejected.malformed + rejected.unknown).toLocaleString('en-GB'),
              )}
            </p>
          </li>
        ))}
      </ul>
      <p class="onward">
        <a href="/instruments" onClick={follow}>
          {words.more}
        </a>
      </p>
    </section>
  );
}

function Duty({ duty, state }: { duty: Quantity; state: State }) {
  const { name, serves, without } = words.duty[duty];
  const source = state.vessel.sources[duty];
  const seconds = ageOf(state, duty);
  const isHeard = source !== undefined && trusted.value;
  return (
    <li class={isHeard ? 'heard' : words.needless.includes(duty) ? 'spared' : 'unheard'}>
      <strong>{name}</strong> <span class="now">{isHeard ? figureOf(duty, state) : words.notHeard}</span>
      <p class="note">{isHeard ? `${serves} ${words.from(source, age(seconds ?? 0))}` : without}</p>
    </li>
  );
}

function figureOf(duty: Quantity, { vessel }: State): string {
  const { antenna, sog, heading, windGround, windApparent, depth, waterSpeed, stream, waterTemperature } =
    vessel;
  switch (duty) {
    case 'position':
      return antenna && vessel.positionSigma !== undefined
        ? `± ${joined(length(2 * vessel.positionSigma, true))}`
        : '';
    case 'motion':
      return sog ? joined(speed(sog.value, true)) : '';
    case 'heading':
      return heading ? bearing(heading.value) : '';
    case 'wind':
      return windGround
        ? words.windFrom(joined(speed(windGround.value.speed)), bearing(windGround.value.from))
        : windApparent
          ? joined(speed(windApparent.value.speed))
          : '';
    case 'depth':
      return depth ? depthText(depth.value) : '';
    case 'water-speed':
      return waterSpeed ? joined(speed(waterSpeed.value.ahead, true)) : '';
    case 'stream':
      return stream ? joined(speed(stream.value.drift, true)) : '';
    case 'water-temperature':
      return waterTemperature ? `${waterTemperature.value.toFixed(1)}\u00a0°C` : '';
  }
}

const depthText = ({ surface, measured }: { surface?: number; measured: number }): string =>
  surface === undefined ? words.depthOnly(joined(length(measured, true))) : joined(length(surface, true));
