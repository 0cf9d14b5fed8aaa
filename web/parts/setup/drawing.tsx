import type { Boat } from '../../../shared/settings.ts';
import { type FieldKey, setupWords as words } from '../../words/setup.ts';
import { HullDrawing } from '../plan/hull.tsx';
import { SideHull } from '../planner/sideHull.tsx';
import { AtAnchor, type Lengths } from './atAnchor.tsx';
import { EDGE, HEIGHT, Measure, WIDTH } from './measured.tsx';

interface Props {
  boat: Boat;
  lengths: Lengths;
  /** The figure that is drawn strong. */
  active: FieldKey | undefined;
  /** As typed, e.g. "34 ft". */
  label: string | undefined;
}

/** Figures that are seen from above only. */
const FROM_ABOVE: readonly FieldKey[] = ['boat.beam', 'boat.antenna.toStarboard'];

/** The boat drawn from her own figures, bow to the left, and each length where it is measured. */
export function Drawing(props: Props) {
  const { active } = props;
  const [where, View] =
    active === undefined || active.startsWith('boat.')
      ? active !== undefined && FROM_ABOVE.includes(active)
        ? ([words.above, Above] as const)
        : ([words.side, Side] as const)
      : ([words.atAnchor, AtAnchor] as const);
  return (
    <figure class="setup-drawing">
      <svg role="img" aria-label={words.drawing} viewBox={`0 0 ${WIDTH} ${HEIGHT}`}>
        <View {...props} />
      </svg>
      <figcaption>
        <span>{where}</span> {active ? words.fields[active].means : words.tap}
      </figcaption>
    </figure>
  );
}

/** How far aft anything is drawn, metres. */
const extent = ({ length, antenna, sounder }: Boat): { fore: number; aft: number } => ({
  fore: Math.min(0, antenna.aftOfRoller, sounder.aftOfRoller),
  aft: Math.max(length, antenna.aftOfRoller, sounder.aftOfRoller),
});

function Side({ boat, active, label }: Props) {
  const { fore, aft } = extent(boat);
  const rail = Math.max(boat.roller.height, 0.6) + 1.4;
  const below = Math.max(boat.draft, boat.sounder.belowWaterline ?? 0);
  const scale = Math.min((WIDTH - 2 * EDGE) / (aft - fore), (HEIGHT - 58) / (rail + below));
  const left = (WIDTH - (aft - fore) * scale) / 2 - fore * scale;
  const waterline = 34 + rail * scale;
  const x = (metresAft: number) => left + metresAft * scale;
  const y = (metresDown: number) => waterline + metresDown * scale;
  const antenna = x(boat.antenna.aftOfRoller);
  const sounder = boat.sounder.belowWaterline ?? 0;
  const part = { active, label };
  return (
    <>
      <path class="sea" d={`M0 ${waterline}H${WIDTH}V${HEIGHT}H0Z`} />
      <SideHull class="boat" boat={boat} x={left} y={waterline} scale={scale} />
      <path class="waterline" d={`M0 ${waterline}H${WIDTH}`} />
      <path class="cable" d={`M${x(0)} ${y(-boat.roller.height)}L${x(0) - 18} ${HEIGHT}`} />
      <circle class="roller" cx={x(0)} cy={y(-boat.roller.height)} r="3.5" />
      <path class="device" d={`M${antenna} ${y(-boat.roller.height * 0.7)}V${y(-rail)}m-5 0h10l-5 -6z`} />
      <path class="device" d={`M${x(boat.sounder.aftOfRoller) - 5} ${y(sounder)}h10l-2 5h-6z`} />
      <Measure {...part} name="boat.length" from={[x(0), 14]} to={[x(boat.length), 14]} />
      <Measure
        {...part}
        name="boat.roller.height"
        from={[x(0) - 9, y(0)]}
        to={[x(0) - 9, y(-boat.roller.height)]}
      />
      <Measure
        {...part}
        name="boat.draft"
        from={[x(boat.length * 0.54), y(0)]}
        to={[x(boat.length * 0.54), y(boat.draft)]}
      />
      <Measure {...part} name="boat.antenna.aftOfRoller" from={[x(0), y(-rail)]} to={[antenna, y(-rail)]} />
      <Measure
        {...part}
        name="boat.sounder.belowWaterline"
        from={[x(boat.sounder.aftOfRoller), y(0)]}
        to={[x(boat.sounder.aftOfRoller), y(sounder)]}
      />
      <Measure
        {...part}
        name="boat.sounder.aftOfRoller"
        from={[x(0), y(below) + 11]}
        to={[x(boat.sounder.aftOfRoller), y(below) + 11]}
      />
    </>
  );
}

function Above({ boat, active, label }: Props) {
  const { fore, aft } = extent(boat);
  const half = Math.max(boat.beam / 2, Math.abs(boat.antenna.toStarboard));
  const scale = Math.min((WIDTH - 2 * EDGE - 20) / (aft - fore), (HEIGHT - 30) / (2 * half));
  const left = (WIDTH - (aft - fore) * scale) / 2 - fore * scale;
  const middle = HEIGHT / 2;
  const x = (metresAft: number) => left + metresAft * scale;
  // Bow to the left: starboard is up.
  const y = (toStarboard: number) => middle - toStarboard * scale;
  const widest = x(boat.length * 0.58);
  const antenna = { x: x(boat.antenna.aftOfRoller), y: y(boat.antenna.toStarboard) };
  const part = { active, label };
  return (
    <>
      <path class="sea" d={`M0 0H${WIDTH}V${HEIGHT}H0Z`} />
      <g class="boat">
        <HullDrawing boat={boat} at={{ x: left, y: middle }} heading={270} scale={scale} />
      </g>
      <path class="waterline" d={`M${x(0) - 14} ${middle}H${x(aft) + 14}`} />
      <text class="side-name" x={EDGE} y="20">
        {words.starboard}
      </text>
      <text class="side-name" x={EDGE} y={HEIGHT - 10}>
        {words.port}
      </text>
      <circle class="roller" cx={x(0)} cy={middle} r="3.5" />
      <circle class="device" cx={antenna.x} cy={antenna.y} r="5" />
      <Measure
        {...part}
        name="boat.beam"
        from={[widest, y(-boat.beam / 2)]}
        to={[widest, y(boat.beam / 2)]}
      />
      <Measure
        {...part}
        name="boat.antenna.toStarboard"
        from={[antenna.x, middle]}
        to={[antenna.x, antenna.y]}
      />
    </>
  );
}
