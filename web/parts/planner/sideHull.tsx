import type { Boat } from '../../../shared/settings.ts';

interface Props {
  boat: Pick<Boat, 'hull' | 'length' | 'draft' | 'roller'>;
  /** Where roller's plumb line meets the waterline, pixels. */
  x: number;
  y: number;
  /** Pixels in a metre. */
  scale: number;
  class: string;
}

/** The boat from the side, true to scale in length, draft and height of the roller, hung up at her bow roller, stern to the right. */
export function SideHull({ boat, x, y, scale, class: name }: Props) {
  return (
    <g class={name} transform={`translate(${x.toFixed(1)} ${y.toFixed(1)}) scale(${scale.toFixed(4)})`}>
      {outlines(boat).map((outline) => (
        <path key={outline} d={outline} vector-effect="non-scaling-stroke" />
      ))}
    </g>
  );
}

/** Metres: waterline at 0, down positive as on the screen, bow at 0. */
function outlines({ hull, length, draft, roller }: Props['boat']): string[] {
  const bow = -Math.max(roller.height, 0.3);
  const stern = bow * 0.75;
  const isMono = hull === 'monohull';
  const belly = isMono ? Math.min(draft * 0.4, length * 0.06) : draft * 0.75;
  const at = (share: number) => share * length;
  const body = [
    `M0 ${bow}`,
    `C${at(0.3)} ${bow * 0.86} ${at(0.7)} ${bow * 0.7} ${length} ${stern}`,
    `L${at(0.97)} ${belly * 0.1}`,
    `C${at(0.8)} ${belly * 0.8} ${at(0.6)} ${belly} ${at(0.45)} ${belly}`,
    `C${at(0.3)} ${belly} ${at(0.14)} ${belly * 0.8} ${at(isMono ? 0.07 : 0.02)} 0Z`,
  ].join('');
  const keel = isMono
    ? `M${at(0.36)} ${belly * 0.95}L${at(0.42)} ${draft}H${at(0.57)}L${at(0.6)} ${belly}`
    : `M${at(0.4)} ${belly}L${at(0.44)} ${draft}H${at(0.64)}L${at(0.67)} ${belly * 0.92}`;
  const rudder = `M${at(0.88)} ${belly * 0.4}L${at(0.9)} ${draft * 0.8}H${at(0.95)}L${at(0.96)} ${belly * 0.15}`;
  const roof = bow - (isMono ? 0.45 : 0.9);
  const house = isMono
    ? `M${at(0.3)} ${bow * 0.88}L${at(0.37)} ${roof}H${at(0.62)}L${at(0.68)} ${bow * 0.76}`
    : `M${at(0.24)} ${bow * 0.9}L${at(0.34)} ${roof}H${at(0.8)}L${at(0.84)} ${bow * 0.74}`;
  return [keel, rudder, house, body];
}
