import { useEffect } from 'preact/hooks';
import type { NightSummary } from '../../../shared/logbook/night.ts';
import { joined, length, speed } from '../../format.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { AlertSign } from '../alerts/alertSign.tsx';
import { BringFile } from './bringFile.tsx';
import { listTrouble, nights, readMore, readNights, total } from './nights.ts';
import { Places } from './places.tsx';
import { day, hour, lasting } from './when.ts';
import { openInAddress } from './where.ts';

export function NightList() {
  useEffect(() => void readNights(), []);
  const list = nights.value;
  return (
    <>
      <h2>
        {words.nights}{' '}
        {list && list.length > 0 && <span class="note">{words.count(list.length, total.value)}</span>}
      </h2>
      {listTrouble.value && <p class="trouble">{listTrouble.value}</p>}
      {!list && !listTrouble.value && <p class="note">{words.loading}</p>}
      {list?.length === 0 && <p class="care">{words.none}</p>}
      <ul class="nights">
        {list?.map((night) => (
          <li key={night.id}>
            <Line night={night} />
          </li>
        ))}
      </ul>
      {list && list.length < total.value && (
        <p class="more">
          <button type="button" onClick={() => void readMore()}>
            {words.more}
          </button>
        </p>
      )}
      <div class="panels">
        <Places />
        <BringFile />
      </div>
    </>
  );
}

/** One night at a glance; all of the line opens it. */
function Line({ night }: { night: NightSummary }) {
  const { id, from, to, upTo, alerts, depth, windMost, farthest, gaps, simulated, origin } = night;
  const { alarms, warnings } = alerts;
  const dead = (gaps.seconds.position ?? 0) + (gaps.seconds.doubtful ?? 0);
  const deep = (metres: number) => joined(length(metres, true));
  const facts = [
    farthest && words.line.farthest(joined(length(farthest.distance))),
    windMost && words.line.wind(joined(speed(windMost.speed))),
    depth && words.line.depth(deep(depth.least), deep(depth.most)),
    dead > 0 && words.line.gap(lasting(dead)),
  ].filter(Boolean);
  return (
    <a
      href={`/logbook?night=${id}`}
      onClick={(event) => {
        if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
        event.preventDefault();
        openInAddress(id);
      }}
    >
      <span class="night-name">
        {night.place ?? simulated ?? words.unnamed}
        {simulated !== undefined && <span class="tag">{words.simulated}</span>}
        {origin === 'import' && <span class="tag">{words.imported}</span>}
      </span>
      <span class="night-time">
        {day(from)}, {hour(from)} – {to === undefined ? words.atAnchor : hour(to)},{' '}
        {words.line.lasting(lasting((to ?? upTo) - from))}
      </span>
      <span class={alarms > 0 ? 'night-alerts strong' : 'night-alerts'}>
        {alarms > 0 && <AlertSign priority="alarm" over />}
        {alarms + warnings === 0
          ? words.line.noAlerts
          : [alarms > 0 && words.line.alarms(alarms), warnings > 0 && words.line.warnings(warnings)]
              .filter(Boolean)
              .join(', ')}
      </span>
      <span class="night-facts">{facts.join(' · ')}</span>
    </a>
  );
}
