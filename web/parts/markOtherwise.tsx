import { useState } from 'preact/hooks';
import * as commands from '../commands.ts';
import { metresTyped, spread, typed, typedAngle } from '../format.ts';
import { shown } from '../live.ts';
import { lengthUnit } from '../prefs.ts';
import { lyingWords } from '../words/lying.ts';
import { words } from '../words.ts';
import { type Asking, Told, useAsking } from './asking.tsx';
import { Field } from './field.tsx';
import { Hold } from './hold.tsx';

const { fromTrack: fromTrackWords } = lyingWords;

/** For a mark that was forgotten, or is known from the chart. */
export function MarkOtherwise() {
  return (
    <>
      <h3>{words.mark.otherwise}</h3>
      <FromTrack />
      <ByBearing />
      <ByPosition />
    </>
  );
}

/** With a mark it is guarded by a hold: it takes the place of the one that stands. */
function FromTrack() {
  const asking = useAsking();
  const [found, setFound] = useState<string>(fromTrackWords.foundPlain);
  const find = () =>
    asking.run(async () => {
      const { trouble, sigma } = await commands.markFromTrack();
      setFound(sigma === undefined ? fromTrackWords.foundPlain : fromTrackWords.found(spread(sigma)));
      return trouble;
    });
  return (
    <section class="from-track">
      <h4>{fromTrackWords.title}</h4>
      <p class="note">{fromTrackWords.means}</p>
      {shown.value?.watch.mark ? (
        <Hold disabled={asking.busy} onHeld={find}>
          {fromTrackWords.find}
        </Hold>
      ) : (
        <button type="button" disabled={asking.busy} onClick={find}>
          {fromTrackWords.find}
        </button>
      )}
      <Told asking={asking} done={found} />
    </section>
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
