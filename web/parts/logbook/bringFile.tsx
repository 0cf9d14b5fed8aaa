import { useState } from 'preact/hooks';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { Settings } from '../../../shared/settings.ts';
import { problemOf } from '../../commands.ts';
import { lengthField, metresTyped, typed, typedAngle } from '../../format.ts';
import { mayCommand, shown } from '../../live.ts';
import { lengthUnit, screenName } from '../../prefs.ts';
import { type Asked, ask } from '../../review/engine.ts';
import type { Loaded } from '../../review/messages.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { LookOnly } from '../asking.tsx';
import { Field } from '../field.tsx';
import { Panel } from '../panel.tsx';
import { readNights } from './nights.ts';
import { follow, openFile } from './opened.ts';
import { openInAddress } from './where.ts';

interface Said {
  veered: number | undefined;
  mark: LatLon | undefined;
}

/** Added to a computed circle when nobody says otherwise, metres: as hawse.yaml has it. */
const MARGIN = 6;

/** A recording from anywhere: looked at on this device, or made a night of the logbook. */
export function BringFile() {
  const [file, setFile] = useState<File>();
  const [veered, setVeered] = useState(() => lengthField(shown.peek()?.cable.veered));
  const [lat, setLat] = useState('');
  const [lon, setLon] = useState('');
  const [over, setOver] = useState(false);
  const [trouble, setTrouble] = useState<string>();
  const [sending, setSending] = useState(false);

  const said = (): Said | string => {
    const cable = typed(veered);
    const at = [typedAngle(lat), typedAngle(lon)];
    if ((at[0] === undefined) !== (at[1] === undefined)) return words.needBoth;
    const mark = at[0] === undefined || at[1] === undefined ? undefined : { lat: at[0], lon: at[1] };
    if (cable === undefined && !mark) return words.needCable;
    return { veered: cable === undefined ? undefined : metresTyped(cable), mark };
  };
  const withFile = (act: (file: File, said: Said) => void) => () => {
    const told = said();
    setTrouble(typeof told === 'string' ? told : undefined);
    if (file && typeof told !== 'string') act(file, told);
  };
  const look = withFile((chosen, { veered: cable, mark }) => {
    const settings = settingsHere(cable);
    if (!settings) return;
    const asked: Asked<Loaded> = ask(
      { do: 'file', file: chosen, told: { settings, ...(mark ? { mark } : {}) } },
      (progress) => follow(asked, progress),
    );
    openFile(asked, chosen.name);
  });
  const keep = withFile(async (chosen, told) => {
    setSending(true);
    const answer = await send(chosen, told);
    setSending(false);
    if ('trouble' in answer) return setTrouble(answer.trouble);
    void readNights();
    openInAddress(answer.id);
  });
  return (
    <Panel title={words.bring} summary={words.bringGist}>
      <label
        class={over ? 'drop over' : 'drop'}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setOver(false);
          setFile(event.dataTransfer?.files[0]);
        }}
      >
        <span>{file ? file.name : words.drop}</span>
        <input
          type="file"
          aria-label={words.choose}
          onChange={(event) => setFile(event.currentTarget.files?.[0])}
        />
      </label>
      <div class="fields">
        <Field
          label={`${words.cable}, ${lengthUnit.value}`}
          value={veered}
          onChange={setVeered}
          hint={words.cableHint}
        />
        <Field text label={words.lat} value={lat} onChange={setLat} hint={words.markHint} />
        <Field text label={words.lon} value={lon} onChange={setLon} hint={words.markHint} />
      </div>
      <p class="choices">
        <button type="button" disabled={!file || sending} onClick={look}>
          {words.lookHere}
        </button>
        <button type="button" disabled={!file || sending || !mayCommand.value} onClick={keep}>
          {sending ? words.sending : words.keep}
        </button>
      </p>
      <p class="note">{words.lookHereHint}</p>
      <LookOnly />
      <p class={trouble ? 'told trouble' : 'told'} role="status">
        {trouble}
      </p>
    </Panel>
  );
}

/** This boat, whichever boat it was: the daemon does the same when it imports a recording that tells no other. */
function settingsHere(veered: number | undefined): Settings | undefined {
  const state = shown.peek();
  if (!state) return undefined;
  const { boat, cable, watch } = state;
  return {
    boat,
    cable: { ...cable, ...(veered === undefined ? {} : { veered }) },
    limits: watch.limits,
    circle: { margin: MARGIN },
    deviation: [],
    checksumOptional: [],
  };
}

async function send(file: File, { veered, mark }: Said): Promise<{ id: string } | { trouble: string }> {
  const query = new URLSearchParams({ name: file.name.slice(0, 200) });
  if (veered !== undefined) query.set('veered', String(veered));
  if (mark) {
    query.set('lat', String(mark.lat));
    query.set('lon', String(mark.lon));
  }
  try {
    const answer = await fetch(`/api/v1/nights/import?${query}`, {
      method: 'POST',
      headers: {
        'content-type': 'application/octet-stream',
        'hawse-name': encodeURIComponent(screenName.peek()),
      },
      body: file,
    });
    if (!answer.ok) return { trouble: await problemOf(answer) };
    const { summary } = (await answer.json()) as { summary: { id: string } };
    return { id: summary.id };
  } catch (error) {
    return { trouble: (error as Error).message };
  }
}
