import type { ComponentChildren } from 'preact';
import type { Text } from '../format.ts';
import { words } from '../words.ts';

interface Props {
  label: string;
  /** A figure with its unit, a direction, or words; undefined: not known. */
  value: Text | string | undefined;
  /** What stands beside a known value: from where, of what, how old. */
  notes?: readonly (string | undefined)[];
  /** What stands in place of an unknown one. */
  missing: string;
  wide?: boolean;
}

/** One cell of the calm grid: label, figure with unit, notes. Without a value there is no figure, only why. */
export function Figure({ label, value, notes = [], missing, wide }: Props) {
  return (
    <div class={wide ? 'cell wide' : 'cell'}>
      <dt>{label}</dt>
      {value === undefined ? (
        <dd class="missing">
          <span class="figure">{words.unknown}</span>
          <span class="note">{missing}</span>
        </dd>
      ) : (
        <dd>
          {typeof value === 'string' ? (
            <span class={/^\d/.test(value) && value.length < 6 ? 'figure' : 'said'}>{value}</span>
          ) : (
            <FigureText text={value} />
          )}
          {notes.map((note) => note && <span class="note">{note}</span>)}
        </dd>
      )}
    </div>
  );
}

export function FigureText({ text }: { text: Text }) {
  return (
    <span class="figure">
      {text.figure}
      <span class="unit"> {text.unit}</span>
    </span>
  );
}

export function Grid({ children }: { children: ComponentChildren }) {
  return <dl class="grid">{children}</dl>;
}
