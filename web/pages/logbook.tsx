import { useEffect, useLayoutEffect } from 'preact/hooks';
import { NightList } from '../parts/logbook/list.tsx';
import { close, living, opened, opening, openNight, trouble } from '../parts/logbook/opened.ts';
import { Review } from '../parts/logbook/review.tsx';
import { Running } from '../parts/logbook/running.tsx';
import { openInAddress, readAddress, wanted } from '../parts/logbook/where.ts';
import { logbookWords as words } from '../words/logbook.ts';

/** Nights that are over, and any of them seen again. */
export function LogbookPage() {
  useLayoutEffect(readAddress, []);
  const id = wanted.value;
  useEffect(() => {
    if (id === undefined) close();
    else void openNight(id);
    return close;
  }, [id]);
  const found = opened.value;
  return (
    <main class="logbook">
      <h1 class="unseen">{words.title}</h1>
      {found ? (
        <Review
          found={found}
          back={() => {
            close();
            openInAddress(undefined);
          }}
        />
      ) : (
        <>
          {trouble.value && <p class="trouble">{trouble.value}</p>}
          {opening.value === undefined ? <NightList /> : <Opening />}
        </>
      )}
    </main>
  );
}

function Opening() {
  const run = living.value;
  return (
    <div class="exactness">
      {run ? (
        <p role="status">
          <Running progress={run.progress} />{' '}
          <button type="button" onClick={run.asked.cancel}>
            {words.stop}
          </button>
        </p>
      ) : (
        <p>{words.opening}</p>
      )}
    </div>
  );
}
