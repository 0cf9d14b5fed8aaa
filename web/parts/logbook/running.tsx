import type { Progress } from '../../review/messages.ts';
import { logbookWords as words } from '../../words/logbook.ts';

/** How far it is, in words and as a bar. */
export function Running({ progress: { bytes, share, times } }: { progress: Progress }) {
  return (
    <>
      <span>
        {share !== undefined
          ? words.running(`${Math.floor(share * 100)} %`, words.times(Math.round(times ?? 0)))
          : words.fetching(`${((bytes ?? 0) / 1e6).toFixed(1)} MB`)}
      </span>
      <progress max={1} {...(share === undefined ? {} : { value: share })} aria-label={words.live} />
    </>
  );
}
