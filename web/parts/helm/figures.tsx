import type { ComponentChildren } from 'preact';
import { turn as turned } from '../../../shared/quantities/angle.ts';
import type { State } from '../../../shared/state.ts';
import { whyMissing } from '../../ages.ts';
import { bearing, joined, length, speed, spread } from '../../format.ts';
import { trusted } from '../../live.ts';
import { helmWords as words } from '../../words/helm.ts';

/** Six figures that keep their places; what is not known is said where it would stand. */
export function Figures({ state }: { state: State }) {
  return (
    <div class="helm-figures">
      <Distance state={state} />
      <Lead state={state} />
      <Cable state={state} />
      <Wind state={state} />
      <Engine state={state} />
      <Takes state={state} />
    </div>
  );
}

interface CellProps {
  name: string;
  children: ComponentChildren;
  under?: ComponentChildren;
  loud?: boolean;
}

const Cell = ({ name, children, under, loud }: CellProps) => (
  <div class={loud ? 'cell loud' : 'cell'}>
    <p class="name">{name}</p>
    <p class="value">{children}</p>
    <p class="under">{under}</p>
  </div>
);

const Missing = () => <span class="missing">{words.unknown}</span>;

/** A movement slower than this is none that positions can show, m/s. */
const STANDS = 0.05;

function Distance({ state }: { state: State }) {
  const { distance, closing } = state.weigh!;
  if (!distance)
    return (
      <Cell name={words.distance} under={whyMissing(state, 'position')}>
        <Missing />
      </Cell>
    );
  const { figure, unit } = length(distance.value);
  const moves = closing && joined(speed(Math.abs(closing.value), true));
  return (
    <Cell
      name={words.distance}
      under={
        !closing
          ? words.closingUnknown
          : Math.abs(closing.value) < Math.max(STANDS, closing.sigma)
            ? words.standing
            : closing.value > 0
              ? words.closing(moves!)
              : words.opening(moves!)
      }
    >
      <b>{figure}</b>{' '}
      <span class="unit">{`${unit} ${spread(distance.sigma).replace(/\s?(?:m|ft)$/, '')}`}</span>
    </Cell>
  );
}

function Lead({ state }: { state: State }) {
  const { lead, brokenOut } = state.weigh!;
  // Off the bottom it hangs where it hangs: the mark tells nothing of it any more.
  if (brokenOut && lead?.from !== 'foredeck')
    return (
      <Cell name={words.lead} under={words.leadFree}>
        <Missing />
      </Cell>
    );
  if (!lead)
    return (
      <Cell name={words.lead} under={state.vessel.heading ? words.leadUnknown : whyMissing(state, 'heading')}>
        <Missing />
      </Cell>
    );
  const isFoul = Math.abs(lead.angle) > lead.limit;
  const under = isFoul ? `${words.foul}: ${words.leads[lead.name]}` : words.leads[lead.name];
  return (
    <Cell
      name={words.lead}
      loud={isFoul}
      under={lead.from === 'foredeck' ? `${under}, ${words.pointed}` : under}
    >
      <b>{lead.clock}</b> <span class="unit">o’clock</span>
    </Cell>
  );
}

const CABLES = {
  slack: 'M2 3C3 22 12 21 38 21',
  fair: 'M2 3C10 12 20 19 38 21',
  taut: 'M2 3L38 21',
};

function Cable({ state }: { state: State }) {
  const { cable, out } = state.weigh!;
  const told = out ? words.out(joined(length(out.value)), out.from) : words.outUnknown;
  if (!cable || cable.certainty < 0.6)
    return (
      <Cell name={words.cable} under={told}>
        <Missing />
      </Cell>
    );
  const word = words.states[cable.state];
  return (
    <Cell name={words.cable} loud={cable.state === 'taut'} under={told}>
      <svg class="cable-sign" viewBox="0 0 40 24" aria-hidden="true">
        <path d={CABLES[cable.state]} />
      </svg>{' '}
      <b class="word">{cable.certainty < 0.75 ? `${word}?` : word}</b>
    </Cell>
  );
}

const offBow = (angle: number): string =>
  `${Math.round(Math.abs(angle))}°\u00a0${angle < 0 ? words.port : words.starboard}`;

/** Degrees of wandering that nobody steers after. */
const ON_IT = 3;

function Wind({ state }: { state: State }) {
  const { held, guidance } = state.weigh!;
  const wind = state.vessel.windApparent?.value;
  const off = held?.deviation;
  const isFar = off !== undefined && guidance !== undefined && Math.abs(off) > guidance.correction.most;
  const under = held
    ? `${words.held(offBow(held.angle))}${off === undefined ? '' : `, ${words.off(Math.round(Math.abs(off)), Math.abs(off) <= ON_IT ? '' : off < 0 ? words.port : words.starboard)}`}`
    : guidance?.windAngle !== undefined
      ? words.expect(offBow(guidance.windAngle))
      : words.noHeld;
  return (
    <Cell name={words.wind} under={under} loud={isFar}>
      {wind ? (
        <>
          <b>{Math.round(Math.abs(wind.angle))}°</b>{' '}
          <span class="unit">{wind.angle < 0 ? words.port : words.starboard}</span>
        </>
      ) : (
        <span class="missing">{`${words.unknown}, ${whyMissing(state, 'wind')}`}</span>
      )}
    </Cell>
  );
}

function Engine({ state }: { state: State }) {
  const { guidance, nearEnd } = state.weigh!;
  if (!guidance)
    return (
      <Cell name={words.engine}>
        <Missing />
      </Cell>
    );
  const share = Math.round(50 * guidance.ahead);
  return (
    <Cell
      name={nearEnd ? `${words.engine}: ${words.slow}` : words.engine}
      loud={nearEnd === true}
      under={
        <>
          <svg class="gain" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
            <path class="ground" d="M0 4H100M50 0V8" />
            <rect x={Math.min(50, 50 + share)} y="1" width={Math.abs(share)} height="6" />
          </svg>
          {words.wanted(joined(speed(guidance.closing, true)))}
        </>
      }
    >
      <b class="word">{words.engines[guidance.engine]}</b>
    </Cell>
  );
}

function Takes({ state }: { state: State }) {
  const { taking } = state.weigh!;
  const heading = state.vessel.heading?.value;
  if (!taking)
    return (
      <Cell name={words.takes} under={trusted.value ? words.takesNote : whyMissing(state, 'position')}>
        <span class="missing">{trusted.value ? words.takesNone : words.unknown}</span>
      </Cell>
    );
  return (
    <Cell name={words.takes} under={words.toward(joined(speed(taking.speed, true)), bearing(taking.toward))}>
      {heading !== undefined && (
        <svg class="takes-sign" viewBox="0 0 24 24" aria-hidden="true">
          <path
            d={
              taking.by === 'stream'
                ? 'M12 22C6 18 18 15 12 11V3M6 9L12 2L18 9'
                : 'M12 22V3M6 9L12 2L18 9M12 22L7 23M12 18L7 19'
            }
            transform={`rotate(${turned(heading, taking.toward)} 12 12)`}
          />
        </svg>
      )}{' '}
      <b class="word">{words.taking[taking.by]}</b>
    </Cell>
  );
}
