import { useState } from 'preact/hooks';
import type { Night, NightSummary } from '../../../shared/logbook/night.ts';
import { call } from '../../commands.ts';
import { bearing, joined, length, position, speed } from '../../format.ts';
import { ask } from '../../review/engine.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { LookOnly, Told, useAsking } from '../asking.tsx';
import { Field } from '../field.tsx';
import { Panel } from '../panel.tsx';
import { type Opened, opened } from './opened.ts';

/** Facts of the night, what people say of it, and what can be taken along. */
export function About({ found }: { found: Opened }) {
  const { night } = found;
  const { id } = night.summary;
  return (
    <>
      <section class="take-along">
        <h2>{words.report}</h2>
        <p>{words.reportHint}</p>
        {found.from === 'boat' ? (
          <>
            <a class="button" href={`/api/v1/nights/${id}/report`} download={`${id}.html`}>
              {words.report}
            </a>
            <fieldset class="choices">
              <legend>{words.exports}</legend>
              {Object.entries(words.exportNames).map(([as, name]) => (
                <a
                  key={as}
                  class="button"
                  href={`/api/v1/nights/${id}/export?as=${as}`}
                  download={`${id}.${as}`}
                >
                  {name}
                </a>
              ))}
            </fieldset>
          </>
        ) : (
          <button type="button" onClick={() => void saveReport(night, found.name)}>
            {words.report}
          </button>
        )}
      </section>
      {found.from === 'file' &&
        found.notes.map((note) => (
          <p key={note} class="care">
            {note}
          </p>
        ))}
      {night.summary.doubts?.map((doubt) => (
        <p key={doubt} class="care">
          {doubt}
        </p>
      ))}
      <Panel title={words.about}>
        <Facts summary={night.summary} />
        {found.from === 'boat' && <Say summary={night.summary} />}
      </Panel>
    </>
  );
}

/** A report made on this device, of a file that the boat does not know. */
async function saveReport(night: Night, name: string): Promise<void> {
  const html = await ask({ do: 'report', night, version: words.onPage }).answer;
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([html], { type: 'text/html' }));
  link.download = `${name.replace(/\.\w+(\.gz)?$/, '')}.html`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

function Facts({ summary }: { summary: NightSummary }) {
  const { mark, veered, depth, windMost, farthest, load, sentences, rejected, gaps, versions } = summary;
  const span = (range: { least: number; most: number }) => {
    const [least, most] = [joined(length(range.least, true)), joined(length(range.most, true))];
    return least === most ? least : `${least} – ${most}`;
  };
  const { facts } = words;
  const rows: [string, string | undefined][] = [
    [facts.mark, position(mark.lat, mark.lon)],
    [facts.veered, veered && span(veered)],
    [facts.depth, depth && span(depth)],
    [facts.wind, windMost && `${joined(speed(windMost.speed))}, ${bearing(windMost.from)}`],
    [facts.farthest, farthest && joined(length(farthest.distance))],
    [
      facts.load,
      load &&
        `${(load.worst / 1000).toFixed(1)}\u00a0kN${load.part === undefined ? '' : `, ${words.workingShare(`${Math.round(load.part * 100)}\u00a0%`)}`}`,
    ],
    [facts.sentences, `${sentences}, ${facts.refused(rejected.checksum + rejected.malformed)}`],
    [facts.gaps, words.gapCount(gaps.count)],
    [facts.versions, versions.join(', ')],
  ];
  return (
    <dl class="facts">
      {rows.map(
        ([name, value]) =>
          value !== undefined && (
            <>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </>
          ),
      )}
    </dl>
  );
}

function Say({ summary }: { summary: NightSummary }) {
  const [place, setPlace] = useState(summary.place ?? '');
  const [notes, setNotes] = useState(summary.notes ?? '');
  const asking = useAsking();
  const save = async () => {
    const { trouble, answer } = await call('PATCH', `/nights/${summary.id}`, {
      place: place.trim() || null,
      notes: notes.trim() || null,
    });
    const now = opened.peek();
    if (trouble === undefined && now?.from === 'boat') {
      const changed = (answer as { summary: NightSummary }).summary;
      opened.value = { ...now, night: { ...now.night, summary: changed } };
    }
    return trouble;
  };
  return (
    <section class="say">
      <LookOnly />
      <Field text label={words.placeField} value={place} onChange={(text) => setPlace(text.slice(0, 80))} />
      <label class="field">
        <span>{words.notesField}</span>
        <textarea
          rows={4}
          maxLength={4000}
          value={notes}
          onInput={(event) => setNotes(event.currentTarget.value)}
        />
      </label>
      <button type="button" disabled={asking.busy} onClick={() => void asking.run(save)}>
        {words.save}
      </button>
      <Told asking={asking} done={words.saved} />
    </section>
  );
}
