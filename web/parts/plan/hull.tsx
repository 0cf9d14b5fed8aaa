import type { Boat } from '../../../shared/settings.ts';
import type { Point } from '../../projection.ts';

interface Props {
  boat: Boat;
  /** The roller on the screen, pixels. */
  at: Point;
  /** Degrees true. */
  heading: number;
  /** Pixels in a metre. */
  scale: number;
}

/** The boat from above, true to scale from her own length and beam, hung up at her bow roller. */
export function HullDrawing({ boat, at, heading, scale }: Props) {
  const place = `translate(${at.x.toFixed(1)} ${at.y.toFixed(1)}) rotate(${heading.toFixed(1)}) scale(${scale.toFixed(4)})`;
  return (
    <g class="hull" transform={place}>
      {OUTLINES[boat.hull](boat.length, boat.beam).map((outline) => (
        <path key={outline} d={outline} vector-effect="non-scaling-stroke" />
      ))}
    </g>
  );
}

/** Outlines in metres: roller at the origin, bow up. */
const OUTLINES: Record<Boat['hull'], (length: number, beam: number) => string[]> = {
  monohull: (length, beam) => [body(0, 0, length, beam), house(length, beam)],
  catamaran: (length, beam) => {
    const hull = beam * 0.17;
    const side = (beam - hull) / 2;
    const bow = -0.08 * length;
    const deck = { from: 0.26 * length, to: 0.84 * length, half: side - hull / 2 };
    return [
      body(-side, bow, length + bow, hull),
      body(side, bow, length + bow, hull),
      // Bridge deck, and the beam at the bows that carries the roller.
      `M${-deck.half} ${deck.from}H${deck.half}V${deck.to}H${-deck.half}Z`,
      `M${-deck.half} 0H${deck.half}`,
    ];
  },
  trimaran: (length, beam) => {
    const float = beam * 0.1;
    const side = (beam - float) / 2;
    const main = beam * 0.22;
    return [
      body(0, 0, length, main),
      body(-side, 0.12 * length, 0.88 * length, float),
      body(side, 0.12 * length, 0.88 * length, float),
      `M${-side} ${0.36 * length}L${-main / 2} ${0.32 * length}M${side} ${0.36 * length}L${main / 2} ${0.32 * length}`,
      `M${-side} ${0.66 * length}H${-main / 2}M${side} ${0.66 * length}H${main / 2}`,
    ];
  },
};

/** One hull from bow to transom: fine forward, widest a little abaft the middle. */
function body(x: number, bow: number, stern: number, beam: number): string {
  const length = stern - bow;
  const half = beam / 2;
  const y = (share: number) => bow + share * length;
  return [
    `M${x} ${bow}`,
    `C${x + half * 0.55} ${y(0.12)} ${x + half} ${y(0.36)} ${x + half} ${y(0.58)}`,
    `C${x + half} ${y(0.78)} ${x + half * 0.86} ${y(0.94)} ${x + half * 0.72} ${stern}`,
    `H${x - half * 0.72}`,
    `C${x - half * 0.86} ${y(0.94)} ${x - half} ${y(0.78)} ${x - half} ${y(0.58)}`,
    `C${x - half} ${y(0.36)} ${x - half * 0.55} ${y(0.12)} ${x} ${bow}Z`,
  ].join('');
}

/** Coach roof, so that bow and stern tell apart at a glance. */
function house(length: number, beam: number): string {
  const half = beam * 0.24;
  return `M0 ${0.3 * length}L${half} ${0.4 * length}V${0.66 * length}H${-half}V${0.4 * length}Z`;
}
