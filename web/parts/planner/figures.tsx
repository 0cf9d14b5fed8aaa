import type { PlanItem, PlanItems } from '../../../shared/plan/plan.ts';
import { length, type Text } from '../../format.ts';
import { words } from '../../words.ts';
import { FigureText } from '../figure.tsx';
import { angle, one } from './sentence.ts';
import type { Standing } from './worked.ts';

const GROUPS: Record<keyof typeof words.planner.groups, readonly (keyof PlanItems)[]> = {
  swing: ['underKeelLow', 'roomLeft', 'longestForRoom', 'circleStern', 'circleRoller', 'circleAntenna'],
  cable: ['veer', 'scope', 'angleAtAnchor', 'onBottom', 'reachHigh', 'reachLow'],
  pull: ['load', 'workingLoadShare', 'windLoad', 'streamLoad', 'tableLoad'],
};

/** Every figure of the plan; opened, each tells its formula and who published it. */
export function PlanFigures({ standing }: { standing: Standing }) {
  const { status, plan } = standing;
  const items = status === 'worked' || status === 'working' ? plan?.answer.items : undefined;
  return (
    <section class={status === 'worked' ? 'planner-figures' : 'planner-figures pending'}>
      {(Object.keys(GROUPS) as (keyof typeof GROUPS)[]).map((group) => (
        <section key={group}>
          <h2>{words.planner.groups[group]}</h2>
          <ul class="grid">
            {GROUPS[group].map((key) => (
              <Item key={key} name={key} items={items} />
            ))}
          </ul>
        </section>
      ))}
      <p class="note">{words.planner.marks}</p>
    </section>
  );
}

function Item({ name, items }: { name: keyof PlanItems; items: PlanItems | undefined }) {
  const item = items?.[name];
  const label = words.planner.items[name];
  if (!item) {
    return (
      <li class="cell">
        <span class="label">{label}</span>
        <span class="figure">{words.unknown}</span>{' '}
        <span class="note">{items ? words.planner.untold[name] : words.planner.noPlan}</span>
      </li>
    );
  }
  return (
    <li class={item.caution ? 'cell careful' : 'cell'}>
      <details>
        <summary>
          <span class="label">{label}</span>
          <FigureText text={textOf(name, item)} />
          {item.sigma ? <span class="note">{spreadOf(item)}</span> : null}
        </summary>
        {item.caution && <p class="strong">{item.caution}</p>}
        <p>{words.planner.why(item.formula)}</p>
        <p>{words.planner.source(item.source)}</p>
      </details>
    </li>
  );
}

/** Lengths that depths are compared with are read to tenths, reaches and circles in whole units. */
const FINE: readonly (keyof PlanItems)[] = ['underKeelLow'];

function textOf(name: keyof PlanItems, { value, unit }: PlanItem): Text {
  switch (unit) {
    case 'm':
      return length(value, FINE.includes(name));
    case 'N':
      return { figure: one(value / 1000), unit: 'kN' };
    case '°':
      return { figure: angle(value), unit: '' };
    case '×':
      return name === 'workingLoadShare'
        ? { figure: String(Math.round(value * 100)), unit: '%' }
        : { figure: one(value), unit: '' };
  }
}

/** Two standard deviations each way, as everywhere on the pages; rounded up. */
const spreadOf = ({ sigma = 0 }: PlanItem): string => `± ${one(Math.ceil(sigma / 50) / 10)}\u00a0kN`;
