import { useState } from 'preact/hooks';
import type { Place } from '../../../shared/logbook/night.ts';
import type { PlacesAnswer } from '../../../shared/messages/night.ts';
import { call } from '../../commands.ts';
import { bearing, joined, length, position, speed } from '../../format.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { day } from './when.ts';
import { openInAddress } from './where.ts';

/** Where she has lain before, near where she is now: asked for when it is opened. */
export function Places() {
  const [places, setPlaces] = useState<Place[] | string | undefined>();
  const read = async () => {
    const { trouble, answer } = await call('GET', '/places');
    setPlaces(trouble ?? (answer as PlacesAnswer).places);
  };
  return (
    <details
      class="panel"
      onToggle={(event) => {
        if (event.currentTarget.open) void read();
      }}
    >
      <summary>
        <h2>{words.places}</h2>
      </summary>
      <div class="inside">
        {places === undefined && <p class="note">{words.loading}</p>}
        {typeof places === 'string' && <p class="trouble">{places}</p>}
        {Array.isArray(places) && places.length === 0 && <p>{words.placesNone}</p>}
        {Array.isArray(places) &&
          places.map((place) => <OnePlace key={`${place.lat} ${place.lon}`} place={place} />)}
      </div>
    </details>
  );
}

function OnePlace({ place }: { place: Place }) {
  const { name, lat, lon, distance, depth, windMost, nights } = place;
  const deep = (metres: number) => joined(length(metres, true));
  const facts = [
    words.placeAway(joined(length(distance)), bearing(place.bearing)),
    words.placeNights(nights.length),
    depth && words.line.depth(deep(depth.least), deep(depth.most)),
    windMost !== undefined && words.line.wind(joined(speed(windMost))),
  ].filter(Boolean);
  return (
    <section class="place">
      <h3>{name ?? position(lat, lon)}</h3>
      <p class="note">{facts.join(' · ')}</p>
      <ul>
        {nights.map((night) => (
          <li key={night.id}>
            <button type="button" onClick={() => openInAddress(night.id)}>
              {day(night.from)}
              {night.dragged && `, ${words.dragged}`}
              {night.alarms > 0 && `, ${words.line.alarms(night.alarms)}`}
            </button>
            {night.notes && <p>{night.notes}</p>}
          </li>
        ))}
      </ul>
    </section>
  );
}
