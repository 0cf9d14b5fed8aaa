import type { State } from '../../shared/state.ts';
import type { TideView } from '../../shared/tides/view.ts';
import * as commands from '../commands.ts';
import { clock, joined, length, spread } from '../format.ts';
import { shown } from '../live.ts';
import { LookOnly, Told, useAsking } from '../parts/asking.tsx';
import { Panel } from '../parts/panel.tsx';
import { Curve } from '../parts/tide/curve.tsx';
import { Stations } from '../parts/tide/stations.tsx';
import { Stream, TellSlack } from '../parts/tide/stream.tsx';
import { TellTide } from '../parts/tide/tellTide.tsx';
import { tideWords as words } from '../words/tide.ts';

/** Height, water under the keel and the turn of the stream; without a tide told, what cannot be known. */
export function TidePage() {
  const state = shown.value;
  return (
    <main class="tide">
      <h1 class="unseen">{words.title}</h1>
      {state && (
        <>
          {state.tide ? <Known state={state} tide={state.tide} /> : <p class="report">{words.none}</p>}
          <p class="care">{words.notForNavigation}</p>
          <Stream state={state} />
          <div class="panels">
            <LookOnly />
            <Panel title={words.tell} summary={state.tide && words.from[state.tide.from]}>
              <TellTide />
              <Stations place={state.watch.mark ?? state.vessel.roller?.value} />
              <TellSlack />
              {state.tide && <Forget />}
            </Panel>
          </div>
        </>
      )}
    </main>
  );
}

/** Slower than this it stands, m/h. */
const STANDS = 0.05;

function Known({ state, tide }: { state: State; tide: TideView }) {
  const { height, rising, unknown } = tide;
  const way =
    rising === undefined
      ? ''
      : Math.abs(rising) < STANDS
        ? words.still
        : rising > 0
          ? words.rising
          : words.falling;
  const ahead = tide.turns.filter(({ at }) => at > state.at).slice(0, 3);
  return (
    <>
      <p class="report">
        {height === undefined
          ? (unknown ?? words.unknownNow)
          : `${words.now(joined(length(height, true)))}, ${way}. ${keel(tide)}`}
      </p>
      {tide.curve.heights.length > 1 && <Curve tide={tide} now={state.at} />}
      <ul class="waters">
        {ahead.map((turn) => (
          <li key={turn.at}>
            {words.next(
              turn.high ? words.high : words.low,
              clock(turn.at),
              joined(length(turn.height, true)),
            )}
          </li>
        ))}
      </ul>
      <Circle state={state} />
      {tide.ends !== undefined && <p class="care">{words.ends(clock(tide.ends))}</p>}
      <p class="note">
        {[words.from[tide.from], tide.place, tide.source, tide.licence, words.by(tide.by)]
          .filter(Boolean)
          .join(' · ')}
      </p>
    </>
  );
}

function keel({ least }: TideView): string {
  if (!least) return words.leastUnknown;
  const { underKeel, at } = least;
  return underKeel < 0
    ? words.aground(joined(length(-underKeel, true)), clock(at))
    : words.least(joined(length(underKeel, true)), clock(at));
}

/** What her own soundings say of the whole circle. */
function Circle({ state: { soundings } }: { state: State }) {
  if (!soundings) return null;
  const { least, leastUnknown, share } = soundings;
  return (
    <p>
      {least
        ? words.circleLeast(joined(length(least.underKeel, true)), spread(least.depth.sigma), least.sounded)
        : leastUnknown}{' '}
      <span class="note">{words.share(`${Math.round(share * 100)} %`)}</span>
    </p>
  );
}

function Forget() {
  const asking = useAsking();
  return (
    <section>
      <button type="button" disabled={asking.busy} onClick={() => asking.run(commands.forgetTide)}>
        {words.forget}
      </button>
      <Told asking={asking} done={words.forgotten} />
    </section>
  );
}
