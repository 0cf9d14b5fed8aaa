import type { Night, Sample } from '../../../shared/logbook/night.ts';
import { bearing, joined, length, speed } from '../../format.ts';
import { logbookWords } from '../../words/logbook.ts';
import { words } from '../../words.ts';
import { Figure, Grid } from '../figure.tsx';

/** How she lay by the sample: figures without spreads, since none are kept. */
export function Sampled({ night, sample }: { night: Night; sample: Sample }) {
  const {
    distance,
    bearing: towards,
    heading,
    depth,
    windSpeed,
    windFrom,
    drift,
    set,
    reach,
    cable,
  } = sample;
  const { moved, probability, circle } = sample;
  const { gaps } = logbookWords;
  return (
    <Grid>
      <Figure
        label={words.figures.distance}
        value={distance === undefined ? undefined : length(distance)}
        notes={[circle === undefined ? words.circle.none : words.circle.of(joined(length(circle)))]}
        missing={gaps.position}
      />
      <Figure
        label={words.figures.bearing}
        value={towards === undefined ? undefined : bearing(towards)}
        missing={gaps.position}
      />
      <Figure
        label={words.figures.heading}
        value={heading === undefined ? undefined : bearing(heading)}
        missing={gaps.heading}
      />
      <Figure
        label={words.figures.depth}
        value={depth === undefined ? undefined : length(depth, true)}
        notes={[
          night.settings.boat.sounder.belowWaterline === undefined
            ? words.figures.depthOf.measured
            : undefined,
        ]}
        missing={gaps.depth}
      />
      <Figure
        label={words.figures.wind}
        value={windSpeed === undefined ? undefined : speed(windSpeed)}
        notes={[windFrom === undefined ? undefined : words.figures.windFrom(bearing(windFrom))]}
        missing={gaps.wind}
      />
      {drift !== undefined && set !== undefined && (
        <Figure
          label={words.figures.stream}
          value={speed(drift, true)}
          notes={[words.figures.streamTo(bearing(set))]}
          missing=""
        />
      )}
      {cable && reach !== undefined && (
        <Figure
          label={words.figures.cable}
          value={words.cable[cable]}
          notes={[words.figures.reach(joined(length(reach)))]}
          missing=""
        />
      )}
      {moved !== undefined && (
        <Figure
          label={words.figures.anchorMoved}
          value={length(moved)}
          notes={[probability === undefined ? undefined : words.figures.probability(probability)]}
          missing=""
        />
      )}
    </Grid>
  );
}
