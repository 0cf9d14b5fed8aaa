import type { Boat } from '../../../shared/settings.ts';
import type { FieldKey } from '../../words/setup.ts';
import { SideHull } from '../planner/sideHull.tsx';
import { EDGE, HEIGHT, Measure, WIDTH } from './measured.tsx';

/** Metres; what is not told is drawn as a boat would have it, without a figure. */
export interface Lengths {
  veered: number;
  chain: number;
  rope: number;
  margin: number;
}

interface Props {
  boat: Boat;
  lengths: Lengths;
  active: FieldKey | undefined;
  label: string | undefined;
}

/** Water for the drawing: a fifth of the cable, as many anchor; the depth is no figure of the file. */
const DEPTH = 0.2;
const KEEL_AT = 0.5;

/** Boat and cable from the side: what is veered, what is aboard, what the limits of the watch are measured from. */
export function AtAnchor({ boat, lengths, active, label }: Props) {
  const { veered, chain, rope, margin } = lengths;
  const depth = Math.max(DEPTH * veered, boat.draft + 1.5);
  const rise = depth + boat.roller.height;
  const out = Math.sqrt(Math.max(1, veered * veered - rise * rise));
  const room = HEIGHT - 74;
  const scale = Math.min((WIDTH - 2 * EDGE) / (out + Math.max(boat.length, margin)), room / (rise + 1));
  const bottom = HEIGHT - 30;
  const x = (metres: number) => EDGE + metres * scale;
  const y = (metresUp: number) => bottom - metresUp * scale;
  const [anchor, roller] = [x(0), { x: x(out), y: y(rise) }];
  const keel = { x: x(out + KEEL_AT * boat.length), y: y(depth - boat.draft) };
  const bar = (WIDTH - 2 * EDGE) / Math.max(1, chain + rope);
  const cable = `M${anchor} ${bottom}H${x(out * 0.2)}Q${x(out * 0.65)} ${bottom} ${roller.x} ${roller.y}`;
  const part = { active, label };
  return (
    <>
      <path class="sea" d={`M0 ${y(depth)}H${WIDTH}V${bottom}H0Z`} />
      <SideHull class="boat" boat={boat} x={roller.x} y={y(depth)} scale={scale} />
      <path class="waterline" d={`M0 ${y(depth)}H${WIDTH}`} />
      <path d={`M0 ${bottom}H${WIDTH}`} />
      <path class="anchor" d={`M${anchor} ${bottom}l-9 -2c-4 0 -5 6 -1 8m0 0l8 1l-7 -7`} />
      <circle class="roller" cx={roller.x} cy={roller.y} r="3.5" />
      <Measure {...part} name="cable.length" from={[EDGE, 14]} to={[EDGE + chain * bar, 14]} />
      {rope > 0 && (
        <Measure
          {...part}
          name="cable.rope"
          from={[EDGE + chain * bar, 14]}
          to={[EDGE + (chain + rope) * bar, 14]}
        />
      )}
      <Measure
        {...part}
        name="cable.veered"
        from={[anchor, bottom]}
        to={[roller.x, roller.y]}
        along={cable}
      />
      <Measure
        {...part}
        name="watch.circleRadius"
        from={[anchor, HEIGHT - 14]}
        to={[roller.x, HEIGHT - 14]}
      />
      <Measure
        {...part}
        name="watch.margin"
        from={[roller.x, HEIGHT - 14]}
        to={[roller.x + margin * scale, HEIGHT - 14]}
      />
      <Measure
        {...part}
        name="watch.depthBelow"
        from={[x(out * 0.35), y(depth)]}
        to={[x(out * 0.35), bottom]}
      />
      <Measure
        {...part}
        name="watch.depthAbove"
        from={[x(out * 0.55), y(depth)]}
        to={[x(out * 0.55), bottom]}
      />
      <Measure {...part} name="watch.underKeelBelow" from={[keel.x, keel.y]} to={[keel.x, bottom]} />
    </>
  );
}
