import type { Cable, ChainMark } from '../../../shared/settings.ts';
import type { WeighView } from '../../../shared/weigh/view.ts';
import { joined, length } from '../../format.ts';
import { mayCommand } from '../../live.ts';
import { foredeckWords as words } from '../../words/foredeck.ts';
import { markAtRoller, pending, stepOut } from './pending.ts';
import { FateSign, fateOf } from './target.tsx';

/** Cable out: a metre less, the two marks of this chain that may stand at the roller now, a metre more. */
export function OutRow({ weigh, cable }: { weigh: WeighView; cable: Cable }) {
  const out = pending.value ?? weigh.out?.value;
  const [inner, outer] = marksNear(cable.marks ?? [], out);
  return (
    <>
      <Step by={-1} from={weigh.out?.value} />
      {inner ? <AtRoller mark={inner} /> : <Step by={-5} from={weigh.out?.value} />}
      {outer ? <AtRoller mark={outer} /> : <Step by={5} from={weigh.out?.value} />}
      <Step by={1} from={weigh.out?.value} />
    </>
  );
}

/** The last mark that is not farther out than the length known, and the next one; without a length the two farthest. */
function marksNear(
  marks: readonly ChainMark[],
  out: number | undefined,
): [ChainMark | undefined, ChainMark | undefined] {
  const beyond = out === undefined ? -1 : marks.findIndex(({ at }) => at > out + 0.5);
  const next = beyond < 0 ? Math.max(marks.length - 1, 0) : beyond;
  return [marks[next - 1], marks[next]];
}

function Step({ by, from }: { by: number; from: number | undefined }) {
  const metres = Math.abs(by);
  return (
    <button type="button" class="target step" disabled={!mayCommand.value} onClick={() => stepOut(from, by)}>
      <span>
        <span class="unseen">{words.cableOut} </span>
        {by < 0 ? '−' : '+'}
        {metres}
        <span class="unit">m</span>
      </span>
    </button>
  );
}

function AtRoller({ mark }: { mark: ChainMark }) {
  const fate = fateOf(`out:${Math.round(mark.at)}`);
  return (
    <button
      type="button"
      class={`target chain-mark ${fate?.is ?? ''}`}
      disabled={!mayCommand.value}
      onClick={() => markAtRoller(mark.at)}
    >
      <span>
        {mark.what}
        <span class="unit">{joined(length(mark.at))}</span>
      </span>
      <FateSign fate={fate} />
    </button>
  );
}
