import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface Props {
  title: string;
  summary?: string | undefined;
  children: ComponentChildren;
}

/** Something to open when it is needed; closed it says the gist in its own line. */
export function Panel({ title, summary, children }: Props) {
  // What was never opened is not drawn anew with every fix.
  const [opened, setOpened] = useState(false);
  return (
    <details
      class="panel"
      onToggle={(event) => {
        if (event.currentTarget.open) setOpened(true);
      }}
    >
      <summary>
        <h2>{title}</h2>
        {summary && <span class="gist">{summary}</span>}
      </summary>
      <div class="inside">{opened && children}</div>
    </details>
  );
}
