import type { ComponentChildren } from 'preact';

interface Props {
  title: string;
  summary?: string | undefined;
  children: ComponentChildren;
}

/** Something to open when it is needed; closed it says the gist in its own line. */
export function Panel({ title, summary, children }: Props) {
  return (
    <details class="panel">
      <summary>
        <h2>{title}</h2>
        {summary && <span class="gist">{summary}</span>}
      </summary>
      <div class="inside">{children}</div>
    </details>
  );
}
