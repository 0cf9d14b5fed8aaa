import type { WeighView } from '../../../shared/weigh/view.ts';
import { clock, joined, length } from '../../format.ts';
import { helmWords as words } from '../../words/helm.ts';

/** How far the weighing has come, over the corner of the plan: stay, near the end, strain, free, adrift. */
export function Stage({ weigh }: { weigh: WeighView }) {
  const { nearEnd, strain, brokenOut, adrift } = weigh;
  return (
    <div class="stage">
      <p class="stay">{stayIn(weigh)}</p>
      {nearEnd && !brokenOut && <p class="chip">{words.nearEnd}</p>}
      {strain !== undefined && !brokenOut && (
        <p class={strain >= SURE ? 'chip' : ''}>
          {words.strain(
            strain >= SURE ? words.strains.builds : strain >= MAY ? words.strains.may : words.strains.none,
          )}
        </p>
      )}
      {brokenOut && <p>{words.free(words.freeBy[brokenOut.from], clock(brokenOut.at))}</p>}
      {adrift && (adrift.edge !== undefined || adrift.shoal !== undefined) && (
        <p class="chip">
          {[
            adrift.edge !== undefined && words.edge(joined(length(adrift.edge))),
            adrift.shoal !== undefined && words.shoal(joined(length(adrift.shoal))),
          ]
            .filter(Boolean)
            .join(', ')}
        </p>
      )}
    </div>
  );
}

/** Probabilities from which strain is said to build, and to be possible. */
const SURE = 0.7;
const MAY = 0.3;

function stayIn({ stay, brokenOut }: WeighView): string {
  if (brokenOut) return words.stay.aweigh;
  if (!stay) return words.stayUnknown;
  const name = words.stay[stay.name];
  if (stay.from === 'distance') return words.byDistance(name);
  return stay.certainty < 0.75 ? words.probably(name) : name;
}
