import type { EngineState } from '../engine.ts';
import type { Event } from '../events.ts';
import type { Input } from '../input.ts';
import type { VesselView } from '../vessel/view.ts';
import { countAlerts, enterAlert } from './alerts.ts';
import { closeGaps, countGaps, noteGaps, noteSilence } from './gaps.ts';
import type { NightSummary, Sample, StoryLine } from './night.ts';
import { countsOf, type NightRecord, STEP } from './record.ts';
import { noteExtremes, takeSample } from './sample.ts';
import { storyOf } from './story.ts';

/** The boat as known now, at the time of the input. */
export type Look = (at: number) => VesselView;

/**
 * Enters what one input has done: to be called after the engine has taken it. Looks at the boat once a second and takes a sample every
 * `STEP` seconds, both only at inputs that the journal keeps: so a night lived again from its journal has the same record.
 */
export function observe(
  record: NightRecord,
  engine: EngineState,
  input: Input,
  events: readonly Event[],
  look: Look,
): Sample | undefined {
  const { night, running } = record;
  for (const event of events) {
    if (event.event === 'alert') enterAlert(night.alerts, event);
    else if (event.event === 'mark' && event.mark) {
      night.summary.mark = { ...event.mark };
      night.summary.marks++;
    }
    const line = storyOf(event);
    if (line) tell(night.story, line);
  }
  const { at } = input;
  if (input.kind === 'tick') return undefined;
  night.summary.upTo = at;
  if (input.kind === 'line') {
    noteSilence(record, at);
    running.lineAt = at;
  } else if (input.kind === 'settings') noteSettings(record, engine, at, input.note);
  const second = Math.floor(at);
  if (second <= running.second || engine.watch.phase === 'no-mark') return undefined;
  running.second = second;
  const vessel = look(at);
  noteGaps(record, vessel);
  noteExtremes(record, engine, vessel);
  const block = Math.floor(second / STEP);
  if (block <= running.block) return undefined;
  running.block = block;
  return takeSample(record, engine, vessel);
}

/** hawse was started anew, or a person has changed hawse.yaml while it ran. */
function noteSettings(
  { night, running }: NightRecord,
  engine: EngineState,
  at: number,
  note: string | undefined,
): void {
  const settings = JSON.stringify(engine.settings);
  if (note !== undefined) {
    running.settings = settings;
    tell(night.story, { at, kind: 'note', text: note });
    return;
  }
  running.startedAt = at;
  const changed =
    settings === running.settings ? 'with the same settings' : 'with other settings than before';
  running.settings = settings;
  tell(night.story, { at, kind: 'note', text: `hawse was started anew, ${changed}.` });
}

/** A crew reads a story of so many lines at most; what comes after them is told as missing. */
const LONGEST = 20_000;

function tell(story: StoryLine[], line: StoryLine): void {
  if (story.length < LONGEST) story.push(line);
  else if (story.length === LONGEST)
    story.push({
      at: line.at,
      kind: 'note',
      text: 'What happened after this is not told here: there is too much of it.',
    });
}

/** The anchor is aweigh, or the recording ends. */
export function endNight(record: NightRecord, at: number): void {
  record.night.summary.to = at;
  closeGaps(record, at);
}

/** That "aweigh" was taken back at `at`. In between no watch was kept, though the instruments spoke: that is no silence of theirs. */
export function reopenNight({ night: { summary, story }, running }: NightRecord, at: number): void {
  const unwatched = Math.round(at - (summary.to ?? at));
  tell(story, { at, kind: 'note', text: `"Aweigh" was taken back; for ${unwatched} s no watch was kept.` });
  running.lineAt = at;
  delete summary.to;
}

/** The summary as of now. */
export function summaryOf({ night, running }: NightRecord, engine: EngineState): NightSummary {
  const { summary, alerts, gaps } = night;
  const now = countsOf(engine);
  const { before } = running;
  summary.alerts = countAlerts(alerts);
  summary.gaps = countGaps(gaps, summary.upTo);
  summary.sentences = now.sentences - before.sentences;
  summary.rejected = {
    checksum: now.checksum - before.checksum,
    malformed: now.malformed - before.malformed,
    unknown: now.unknown - before.unknown,
  };
  return summary;
}
