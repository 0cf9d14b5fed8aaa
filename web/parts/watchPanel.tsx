import { useState } from 'preact/hooks';
import type { WatchChange } from '../../shared/commands.ts';
import type { Limits } from '../../shared/settings.ts';
import type { State } from '../../shared/state.ts';
import type { WatchView } from '../../shared/watch/view.ts';
import * as commands from '../commands.ts';
import { joined, length, lengthField, metresTyped, speedField, speedTyped, typed } from '../format.ts';
import { lengthUnit, speedUnit } from '../prefs.ts';
import { words } from '../words.ts';
import { Told, useAsking } from './asking.tsx';
import { Field } from './field.tsx';
import { Panel } from './panel.tsx';

type Key = 'veered' | 'radius' | keyof Limits;

interface Row {
  key: Key;
  label: () => string;
  hint?: string;
  /** What stands in the field now, and what is sent for a number or (null) for an emptied field. */
  show: (watch: WatchView) => string;
  change: (value: number | null) => WatchChange;
}

const metres = (value: number | null) => (value === null ? null : metresTyped(value));

const ROWS: readonly Row[] = [
  {
    key: 'veered',
    label: () => words.watch.veered(lengthUnit.value),
    show: (watch) => lengthField(watch.veered),
    change: (value) => (value === null ? {} : { veered: metresTyped(value) }),
  },
  {
    key: 'radius',
    label: () => words.watch.radius(lengthUnit.value),
    hint: words.watch.radiusHint,
    show: ({ circle }) => (circle && !circle.computed ? lengthField(circle.radius) : ''),
    change: (value) => ({ circleRadius: metres(value) }),
  },
  {
    key: 'depthBelow',
    label: () => words.watch.depthBelow(lengthUnit.value),
    hint: words.watch.limitHint,
    show: ({ limits }) => lengthField(limits.depthBelow),
    change: (value) => ({ limits: { depthBelow: metres(value) } }),
  },
  {
    key: 'depthAbove',
    label: () => words.watch.depthAbove(lengthUnit.value),
    hint: words.watch.limitHint,
    show: ({ limits }) => lengthField(limits.depthAbove),
    change: (value) => ({ limits: { depthAbove: metres(value) } }),
  },
  {
    key: 'underKeelBelow',
    label: () => words.watch.underKeelBelow(lengthUnit.value),
    hint: words.watch.underKeelHint,
    show: ({ limits }) => lengthField(limits.underKeelBelow),
    change: (value) => ({ limits: { underKeelBelow: metres(value) } }),
  },
  {
    key: 'windAbove',
    label: () => words.watch.windAbove(speedUnit.value),
    hint: words.watch.limitHint,
    show: ({ limits }) => speedField(limits.windAbove),
    change: (value) => ({ limits: { windAbove: value === null ? null : speedTyped(value) } }),
  },
  {
    key: 'windShift',
    label: () => words.watch.windShift,
    hint: words.watch.limitHint,
    show: ({ limits }) => (limits.windShift === undefined ? '' : String(limits.windShift)),
    change: (value) => ({ limits: { windShift: value } }),
  },
];

/** The changes that the touched fields ask for, or what is wrong with one of them. */
function changesOf(touched: Partial<Record<Key, string>>): WatchChange | string {
  const all: WatchChange = {};
  const limits: WatchChange['limits'] = {};
  for (const row of ROWS) {
    const text = touched[row.key];
    if (text === undefined) continue;
    const value = text.trim() === '' ? null : typed(text);
    const needsNumber = value === undefined || (value === null && row.key === 'veered');
    if (needsNumber) return words.mark.needsNumber(row.label());
    const change = row.change(value);
    Object.assign(all, change);
    Object.assign(limits, change.limits);
  }
  return Object.keys(limits).length > 0 ? { ...all, limits } : all;
}

export function WatchPanel({ state }: { state: State }) {
  const asking = useAsking();
  const [touched, setTouched] = useState<Partial<Record<Key, string>>>({});
  const { watch } = state;
  const submit = (event: Event) => {
    event.preventDefault();
    const change = changesOf(touched);
    if (typeof change === 'string') asking.say(change);
    else if (Object.keys(change).length === 0) asking.say(words.watch.noChange);
    else
      void asking.run(async () => {
        const trouble = await commands.changeWatch(change);
        if (trouble === undefined) setTouched({});
        return trouble;
      });
  };
  return (
    <Panel title={words.watch.title} summary={gist(watch)}>
      {watch.circle && <p class="note">{watch.circle.explanation}</p>}
      {watch.farthest !== undefined && (
        <p class="note">{words.circle.farthest(joined(length(watch.farthest)))}</p>
      )}
      <form onSubmit={submit} noValidate>
        <div class="fields">
          {ROWS.map((row) => (
            <Field
              key={row.key}
              label={row.label()}
              value={touched[row.key] ?? row.show(watch)}
              onChange={(text) => setTouched((before) => ({ ...before, [row.key]: text }))}
              {...(row.hint && { hint: row.hint })}
            />
          ))}
        </div>
        <button type="submit" disabled={asking.busy}>
          {words.watch.save}
        </button>
        <Told asking={asking} done={words.watch.saved} />
      </form>
    </Panel>
  );
}

function gist({ veered, circle }: WatchView): string {
  const { summary } = words.watch;
  const parts = [
    veered !== undefined && `${summary.veered} ${joined(length(veered))}`,
    circle &&
      `${summary.circle} ${joined(length(circle.radius))} ${circle.computed ? summary.computed : summary.set}`,
  ];
  return parts.filter(Boolean).join(' · ');
}
