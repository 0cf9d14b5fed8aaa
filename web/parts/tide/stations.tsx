import { useState } from 'preact/hooks';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { TideTold } from '../../../shared/tides/view.ts';
import * as commands from '../../commands.ts';
import { tideWords as words } from '../../words/tide.ts';
import { Told, useAsking } from '../asking.tsx';

interface Station {
  id: string;
  name: string;
  distance: number;
  licence: string;
  attribution: string;
}

/** The data set opens slowly on a small computer. */
const LIMIT_MS = 25_000;

/** A tide by constituents from an open data set, with the terms it is lent under. */
export function Stations({ place }: { place: LatLon | undefined }) {
  const asking = useAsking();
  const [found, setFound] = useState<Station[]>();
  const look = () =>
    asking.run(async () => {
      if (!place) return words.noPlace;
      const { trouble, answer } = await commands.call(
        'GET',
        `/tide/stations?lat=${place.lat}&lon=${place.lon}`,
        undefined,
        LIMIT_MS,
      );
      if (trouble === undefined) setFound((answer as { stations: Station[] }).stations);
      return trouble;
    });
  const take = (id: string) => () =>
    asking.run(async () => {
      const { trouble, answer } = await commands.call(
        'GET',
        `/tide/station?id=${encodeURIComponent(id)}`,
        undefined,
        LIMIT_MS,
      );
      return trouble ?? commands.tellTide((answer as { tide: TideTold }).tide);
    });
  return (
    <section>
      <h3>{words.byStation}</h3>
      <button type="button" disabled={asking.busy} onClick={look}>
        {words.find}
      </button>
      {found?.length === 0 && <p class="note">{words.noStation}</p>}
      {found?.map(({ id, name, distance, licence, attribution }) => (
        <div class="station" key={id}>
          <p>
            <strong>{name}</strong> {words.away(`${(distance / 1852).toFixed(0)} M`)}
          </p>
          <p class="note">
            {licence}. {attribution}
          </p>
          <button type="button" disabled={asking.busy} onClick={take(id)}>
            {words.take}
          </button>
        </div>
      ))}
      <Told asking={asking} done={words.saved} />
    </section>
  );
}
