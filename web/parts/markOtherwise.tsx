import { useState } from 'preact/hooks';
import * as commands from '../commands.ts';
import { metresTyped, typed, typedAngle } from '../format.ts';
import { lengthUnit } from '../prefs.ts';
import { words } from '../words.ts';
import { type Asking, Told, useAsking } from './asking.tsx';
import { Field } from './field.tsx';

/** For a mark that was forgotten, or is known from the chart. */
export function MarkOtherwise() {
  return (
    <>
      <h3>{words.mark.otherwise}</h3>
      <ByBearing />
      <ByPosition />
    </>
  );
}

function ByBearing() {
  const asking = useAsking();
  const [bearing, setBearing] = useState('');
  const [distance, setDistance] = useState('');
  const distanceLabel = words.mark.distance(lengthUnit.value);
  const submit = (event: Event) => {
    event.preventDefault();
    const how = { bearing: typed(bearing), distance: typed(distance) };
    if (how.bearing === undefined) asking.say(words.mark.needsNumber(words.mark.bearing));
    else if (how.distance === undefined) asking.say(words.mark.needsNumber(distanceLabel));
    else set(asking, { bearing: how.bearing, distance: metresTyped(how.distance) });
  };
  return (
    <form onSubmit={submit} noValidate>
      <h4>{words.mark.byBearing}</h4>
      <div class="fields">
        <Field label={words.mark.bearing} value={bearing} onChange={setBearing} />
        <Field label={distanceLabel} value={distance} onChange={setDistance} />
      </div>
      <button type="submit" disabled={asking.busy}>
        {words.mark.set}
      </button>
      <Told asking={asking} done={words.watch.saved} />
    </form>
  );
}

function ByPosition() {
  const asking = useAsking();
  const [lat, setLat] = useState('');
  const [lon, setLon] = useState('');
  const submit = (event: Event) => {
    event.preventDefault();
    const how = { lat: typedAngle(lat), lon: typedAngle(lon) };
    if (how.lat === undefined) asking.say(words.mark.needsAngle(words.mark.lat));
    else if (how.lon === undefined) asking.say(words.mark.needsAngle(words.mark.lon));
    else set(asking, { lat: how.lat, lon: how.lon });
  };
  return (
    <form onSubmit={submit} noValidate>
      <h4>{words.mark.byPosition}</h4>
      <div class="fields">
        <Field text label={words.mark.lat} value={lat} onChange={setLat} />
        <Field text label={words.mark.lon} value={lon} onChange={setLon} />
      </div>
      <button type="submit" disabled={asking.busy}>
        {words.mark.set}
      </button>
      <Told asking={asking} done={words.watch.saved} />
    </form>
  );
}

const set = (asking: Asking, how: commands.MarkHow) => void asking.run(() => commands.mark(how));
