import type { State } from '../../shared/state.ts';
import { ageBeside, stands, whyMissing } from '../ages.ts';
import { bearing, joined, length, speed, speedSpread, spread } from '../format.ts';
import { leadInWords, words } from '../words.ts';
import { Figure, Grid } from './figure.tsx';

/** The calm grid under the dominant figure. */
export function Figures({ state }: { state: State }) {
  return (
    <Grid>
      <Lead state={state} />
      <Bearing state={state} />
      <Heading state={state} />
      <Depth state={state} />
      <Wind state={state} />
      <Motion state={state} />
      <Stream state={state} />
      <Cable state={state} />
      <Moved state={state} />
    </Grid>
  );
}

interface Part {
  state: State;
}

const missingFromMark = (state: State): string => {
  if (!stands(state)) return words.age.lost;
  return state.watch.mark ? whyMissing(state, 'position') : words.age.noMark;
};

function Lead({ state }: Part) {
  const { lead, bearing: toAnchor } = state.watch;
  return (
    <Figure
      wide
      label={words.figures.lead}
      value={lead === undefined ? undefined : leadInWords(lead)}
      missing={toAnchor === undefined ? missingFromMark(state) : words.age.noHeading}
    />
  );
}

function Bearing({ state }: Part) {
  const toAnchor = state.watch.bearing;
  return (
    <Figure
      label={words.figures.bearing}
      value={toAnchor === undefined ? undefined : bearing(toAnchor)}
      notes={[ageBeside(state, 'position')]}
      missing={missingFromMark(state)}
    />
  );
}

function Heading({ state }: Part) {
  const { heading } = state.vessel;
  return (
    <Figure
      label={words.figures.heading}
      value={heading && bearing(heading.value)}
      notes={[heading && words.figures.headingFrom[heading.from], ageBeside(state, 'heading')]}
      missing={whyMissing(state, 'heading')}
    />
  );
}

function Depth({ state }: Part) {
  const depth = state.vessel.depth?.value;
  const surface = depth?.surface;
  const of = words.figures.depthOf[surface === undefined ? 'measured' : 'surface'];
  return (
    <Figure
      label={words.figures.depth}
      value={depth && length(surface ?? depth.measured, true)}
      notes={[
        of,
        depth?.keel === undefined ? undefined : words.figures.underKeel(joined(length(depth.keel, true))),
        ageBeside(state, 'depth'),
      ]}
      missing={whyMissing(state, 'depth')}
    />
  );
}

function Wind({ state }: Part) {
  const wind = state.vessel.windGround?.value;
  // Without heading or motion there is no ground wind, but what blows over the deck is still worth knowing.
  const apparent = wind ? undefined : state.vessel.windApparent?.value;
  const shown = wind ?? apparent;
  return (
    <Figure
      label={apparent ? words.figures.windApparent : words.figures.wind}
      value={shown && speed(shown.speed)}
      notes={[
        wind && words.figures.windFrom(bearing(wind.from)),
        apparent && words.figures.windFrom(leadInWords(apparent.angle)),
        ageBeside(state, 'wind'),
      ]}
      missing={whyMissing(state, 'wind')}
    />
  );
}

function Motion({ state }: Part) {
  const { sog, cog } = state.vessel;
  return (
    <Figure
      label={words.figures.motion}
      value={sog && speed(sog.value, true)}
      notes={[cog && words.figures.towards(bearing(cog.value)), ageBeside(state, 'motion')]}
      missing={whyMissing(state, 'motion')}
    />
  );
}

/** As an instrument reports it, else as the watch has worked it out; without either there is no cell. */
function Stream({ state }: Part) {
  const told = state.vessel.stream?.value;
  const found = state.watch.lie?.stream;
  const drift = told?.drift ?? found?.drift.value;
  const set = told?.set ?? found?.set.value;
  if (drift === undefined || set === undefined) return null;
  return (
    <Figure
      label={words.figures.stream}
      value={speed(drift, true)}
      notes={[
        words.figures.streamTo(bearing(set)),
        told ? undefined : found && speedSpread(found.drift.sigma),
        told && ageBeside(state, 'stream'),
      ]}
      missing=""
    />
  );
}

function Cable({ state }: Part) {
  const { cable } = state.watch;
  if (!cable) return null;
  const reach = `${joined(length(cable.reach.value))} ${spread(cable.reach.sigma)}`;
  return (
    <Figure
      label={words.figures.cable}
      value={words.cable[cable.state]}
      notes={[words.figures.certainty(cable.certainty), words.figures.reach(reach)]}
      missing=""
    />
  );
}

function Moved({ state }: Part) {
  const { anchor } = state.watch;
  if (!anchor) return null;
  return (
    <Figure
      label={words.figures.anchorMoved}
      value={length(anchor.moved)}
      notes={[spread(anchor.sigma), words.figures.probability(anchor.probability), words.figures.dotted]}
      missing=""
    />
  );
}
