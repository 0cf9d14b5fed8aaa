import { useState } from 'preact/hooks';
import type { CheckView } from '../../../shared/weigh/check-view.ts';
import * as commands from '../../commands.ts';
import { mayCommand } from '../../live.ts';
import { checkWords as words } from '../../words/check.ts';
import { Told, useAsking } from '../asking.tsx';
import { Panel } from '../panel.tsx';

/** The crew's own list, one item on each line. */
export function EditList({ check }: { check: CheckView }) {
  const asking = useAsking();
  const [text, setText] = useState<string>();
  const keep = (items: string[] | null) =>
    asking.run(async () => {
      const trouble = await commands.departureItems(items);
      if (trouble === undefined) setText(undefined);
      return trouble;
    });
  const lines = (text ?? '').split('\n').flatMap((line) => (line.trim() === '' ? [] : [line.trim()]));
  return (
    <Panel title={words.edit} summary={check.own && words.own}>
      <label class="field">
        <span>{words.editLabel}</span>
        <textarea
          rows={check.items.length + 2}
          value={text ?? check.items.join('\n')}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <div class="actions">
        <button
          type="button"
          disabled={!mayCommand.value || asking.busy || text === undefined}
          onClick={() => void keep(lines)}
        >
          {words.save}
        </button>
        {check.own && (
          <button type="button" disabled={!mayCommand.value || asking.busy} onClick={() => void keep(null)}>
            {words.common}
          </button>
        )}
      </div>
      <Told asking={asking} done={words.saved} />
    </Panel>
  );
}
