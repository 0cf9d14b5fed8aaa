import { CAUTIONS } from '../../../shared/weigh/cautions.ts';
import type { WeighView } from '../../../shared/weigh/view.ts';
import * as commands from '../../commands.ts';
import { mayCommand, shown, trusted } from '../../live.ts';
import { told } from '../../told.ts';
import { helmWords as words } from '../../words/helm.ts';
import { words as common } from '../../words.ts';
import { byUrgency, needsAnswer, titleOf } from '../alerts/urgency.ts';
import { useAsking } from '../asking.tsx';

/** One place of fixed size: the boat's most urgent alert, else the caution that belongs to what is being done. Nothing jumps. */
export function Risk({ weigh }: { weigh: WeighView }) {
  const asking = useAsking('acknowledge');
  const alerts = byUrgency(shown.value?.alerts ?? []);
  const first = alerts.find(({ priority }) => priority !== 'caution');
  if (!first) return <p class="risk">{trusted.value ? cautionFor(weigh) : words.figuresOld}</p>;
  const unanswered = needsAnswer(first);
  return (
    <section
      class={`risk alert ${first.priority} ${unanswered ? 'asks' : ''}`}
      aria-label={common.alerts.region}
    >
      <p>
        <strong>
          {common.alerts.priority[first.priority]}: {titleOf(first)}.
        </strong>{' '}
        {asking.trouble ?? told(first.text)} {alerts.length > 1 && words.more(alerts.length - 1)}
      </p>
      {unanswered && (
        <button
          type="button"
          disabled={asking.busy}
          onClick={() => asking.run(() => commands.acknowledge(first.id))}
        >
          {words.acknowledge}
        </button>
      )}
    </section>
  );
}

const caution = (id: string): string => CAUTIONS.find((one) => one.id === id)?.text ?? '';

/** The risk that is nearest now. */
function cautionFor({ nearEnd, lead, heaving, snubbed, cable, stay, brokenOut, strain }: WeighView): string {
  if (!mayCommand.value) return common.lookOnly;
  if (brokenOut) return caution('clear');
  if (strain !== undefined || snubbed || stay?.name === 'up-and-down') return caution('snubbed');
  if (nearEnd || stay?.name === 'short') return caution('overrun');
  if (lead && Math.abs(lead.angle) > lead.limit / 2) return caution('clear');
  if (heaving || cable?.state === 'taut') return caution('windlass');
  return caution('manuals');
}
