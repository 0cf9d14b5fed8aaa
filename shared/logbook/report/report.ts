import { distanceBearing } from '../../earth/geodesic.ts';
import { threeFigures } from '../../quantities/angle.ts';
import type { LatLon } from '../../quantities/estimate.ts';
import type { Gap, GapKind, Night, NightAlert, NightSummary } from '../night.ts';
import { type Numbered, planOf } from './plan.ts';
import { settingsOf } from './settings.ts';
import { stripsOf } from './strips.ts';
import { STYLE } from './style.ts';
import {
  GAPS,
  kilonewtons,
  lasting,
  loudAt,
  metres,
  moment,
  position,
  safe,
  streamSpeed,
  table,
  time,
  windSpeed,
} from './words.ts';

/** By which program the report is made, and when, UNIX seconds. */
export interface Made {
  at: number;
  version: string;
}

/** A sample farther from an alarm than this does not tell where she was then, seconds. */
const NEAR = 60;

/**
 * A night as one page of HTML that stands alone and prints on A4 and Letter: what a crew hands to an insurer. Everything comes from the
 * night's record as it was kept; nothing is smoothed, and what was not known is said.
 */
export function reportOf(night: Night, made: Made): string {
  const { summary, alerts } = night;
  const ordered = [...alerts].sort((a, b) => a.from - b.from);
  const numbered = ordered.flatMap((alert, i): Numbered[] => {
    const place = alert.priority === 'alarm' ? placeAt(night, loudAt(alert)) : undefined;
    return place ? [{ number: i + 1, ...place }] : [];
  });
  const plan = planOf(night, numbered);
  const name = `${summary.place ?? 'Anchorage'}, ${moment(summary.from)} UTC`;
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${safe(`${summary.boat}: ${name}`)}</title>
<style>${STYLE}</style></head><body>
${summary.simulated === undefined ? '' : `<p class="simulated">SIMULATED: ${safe(summary.simulated)}. No boat lay here.</p>`}
<h1>${safe(summary.boat)}: record of an anchorage</h1>
<p class="lead">${safe(summary.place ?? position(summary.mark))}, ${moment(summary.from)} to ${summary.to === undefined ? `${moment(summary.upTo)} UTC (still at anchor)` : `${moment(summary.to)} UTC`}, ${lasting((summary.to ?? summary.upTo) - summary.from)}.</p>
<p class="small">All times are UTC by the clock of the boat’s computer${summary.origin === 'import' ? '; this record was made from sentences recorded elsewhere, in which time is as the recording tells it' : ''}. Positions are of the bow roller, WGS-84.</p>
${dead(night)}
<h2>Facts</h2>${facts(night)}
<h2>Alerts</h2>${alertList(night, ordered)}
<h2>Plan</h2>${plan === undefined ? '<p>There was no position at any time: no plan can be drawn.</p>' : `<figure>${plan}<figcaption class="small">One point each ${night.step} s, joined only where no sample is missing between. Cross: the mark, with twice its uncertainty. Rings: positions that the watch held to be doubtful. Numbers: where she was when an alarm was raised, as in the list. Dashed: the circle when the watch began.</figcaption></figure>`}
<h2>Strips</h2><figure>${stripsOf(night)}</figure>
<h2>What was missing</h2>${gapList(night)}
<h2>What happened</h2>${story(night)}
<h2>Settings when the watch began</h2>${settingsOf(night.settings)}
<h2>Quality of the data</h2>${quality(night)}
<h2>Recorded sentences</h2>${checksums(night)}
<h2>How this was made</h2>
<p>By hawse ${safe(made.version)} on ${moment(made.at)} UTC from night ${safe(summary.id)}. ${kept(summary)} Maxima are of single readings; samples are ${night.step} s apart and hold the extremes between them. Whether the anchor dragged is an estimate of the watch from positions, wind and cable, with its likelihood beside it; it is no measurement of the anchor.</p>
</body></html>
`;
}

/** How the record came about. */
function kept({ versions, origin, rebuilt }: NightSummary): string {
  const by = `hawse ${safe(versions.join(', '))}`;
  if (origin === 'import')
    return `No watch of this hawse was kept that night: ${by} lived it again from sentences recorded elsewhere, so alerts are those that it would have raised. Boat, cable and limits are as they were told at the import.`;
  const anew = rebuilt
    ? `, and made anew later from the recorded sentences${rebuilt.exact ? '' : ', beginning half an hour before the mark since the state of the watch then is lost'}`
    : '';
  return `The record was kept by ${by} while the night went on${anew}.`;
}

/** Where she was, by the sample nearest in time. */
function placeAt({ strips }: Night, at: number): LatLon | undefined {
  let best: (LatLon & { off: number }) | undefined;
  for (const { at: then, lat, lon } of strips) {
    const off = Math.abs(then - at);
    if (lat !== undefined && lon !== undefined && off <= NEAR && !(best && best.off <= off))
      best = { lat, lon, off };
  }
  return best && { lat: best.lat, lon: best.lon };
}

const until = (night: Night, gap: Gap): number => gap.to ?? night.summary.to ?? night.summary.upTo;

/** When there was no position that the watch could go by: first of all, since everything else depends on it. */
function dead(night: Night): string {
  const stretches = merged(
    night.gaps
      .filter(({ kind }) => kind === 'position' || kind === 'silence' || kind === 'doubtful')
      .map((gap) => ({ from: gap.from, to: until(night, gap), kinds: [gap.kind] })),
  );
  if (stretches.length === 0)
    return '<div class="box">Position was known and held to be good throughout, as far as the instruments tell.</div>';
  const all = stretches.reduce((sum, { from, to }) => sum + to - from, 0);
  const longest = [...stretches].sort((a, b) => b.to - b.from - (a.to - a.from)).slice(0, 10);
  longest.sort((a, b) => a.from - b.from);
  return `<div class="box"><strong>For ${lasting(all)} altogether there was no position, or none to be trusted. In that time nothing is known of where she lay.</strong><ul>${longest
    .map(
      ({ from, to, kinds }) =>
        `<li>${moment(from)} to ${time(to)} UTC, ${lasting(to - from)}: ${[...new Set(kinds)].map((kind) => GAPS[kind]).join('; ')}</li>`,
    )
    .join(
      '',
    )}</ul>${stretches.length > longest.length ? `<p>These are the ${longest.length} longest of ${stretches.length}; all stand below.</p>` : ''}</div>`;
}

interface Stretch {
  from: number;
  to: number;
  kinds: GapKind[];
}

/** Stretches that touch or overlap are one. */
function merged(stretches: Stretch[]): Stretch[] {
  const made: Stretch[] = [];
  for (const stretch of stretches.sort((a, b) => a.from - b.from)) {
    const last = made.at(-1);
    if (last && stretch.from <= last.to + 1) {
      last.to = Math.max(last.to, stretch.to);
      last.kinds.push(...stretch.kinds);
    } else made.push({ ...stretch });
  }
  return made;
}

const list = (rows: readonly (readonly [string, string | undefined])[]): string =>
  `<dl>${rows
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => `<dt>${name}</dt><dd>${value}</dd>`)
    .join('')}</dl>`;

function facts({ summary }: Night): string {
  const { mark, depth, windMost, streamMost, farthest, movedMost, load, veered } = summary;
  const span = (range: { least: number; most: number } | undefined) =>
    range &&
    (range.least === range.most ? metres(range.least) : `${metres(range.least)} to ${metres(range.most)}`);
  return list([
    [
      'Mark',
      `${position(mark)}, uncertain by ${metres(mark.sigma)} (one standard deviation), set ${moment(mark.at)} by ${safe(mark.by)}${summary.marks > 1 ? `; last of ${summary.marks} marks` : ''}`,
    ],
    ['Cable out', span(veered) ?? 'not told'],
    ['Depth', span(depth) ?? 'never known'],
    [
      'Strongest wind',
      windMost
        ? `${windSpeed(windMost.speed)} from ${threeFigures(windMost.from)}, ${moment(windMost.at)}`
        : 'never known',
    ],
    [
      'Strongest stream',
      streamMost &&
        `${streamSpeed(streamMost.drift)} setting ${threeFigures(streamMost.set)}, ${moment(streamMost.at)}`,
    ],
    [
      'Farthest from the mark',
      farthest
        ? `${metres(farthest.distance)}${farthest.bearing === undefined ? '' : ` bearing ${threeFigures(farthest.bearing)}`}, ${moment(farthest.at)}`
        : 'never known',
    ],
    [
      'Anchor moved at most',
      movedMost
        ? `${metres(movedMost.moved)} ± ${metres(2 * movedMost.sigma)}, ${(100 * movedMost.probability).toFixed(0)} % likely, ${moment(movedMost.at)}`
        : 'the watch saw no movement that was more likely than not',
    ],
    [
      'Worst pull on the cable',
      load &&
        `${kilonewtons(load.worst)}${load.part === undefined ? '' : `, ${(100 * load.part).toFixed(0)} % of the working load`}, ${moment(load.at)}; reckoned from a single reading of the wind, without seas and sheering`,
    ],
    [
      'Alerts',
      [
        counted(summary.alerts.alarms, 'alarm'),
        counted(summary.alerts.warnings, 'warning'),
        counted(summary.alerts.cautions, 'caution'),
      ].join(', '),
    ],
    [
      'Notes of the crew',
      summary.notes === undefined ? undefined : safe(summary.notes).replaceAll('\n', '<br>'),
    ],
  ]);
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

const STATES: Record<NightAlert['changes'][number]['state'], string> = {
  'active-unacknowledged': 'raised, not acknowledged',
  'active-silenced': 'silenced for a while',
  'active-acknowledged': 'acknowledged',
  'rectified-unacknowledged': 'over, not acknowledged',
  normal: 'over',
};

function alertList(night: Night, alerts: readonly NightAlert[]): string {
  if (alerts.length === 0) return '<p>There was no alert.</p>';
  const rows = alerts.flatMap((alert, i) => {
    const place = placeAt(night, alert.from);
    const where = place
      ? `${metres(distanceBearing(night.summary.mark, place).distance)} from the mark`
      : 'place unknown';
    return alert.changes.map(({ at, state, priority, text, by }, j) => [
      j === 0 ? `<strong>${i + 1}</strong>` : '',
      moment(at),
      priority,
      // A caution needs no acknowledgement: its standard state is this one.
      state === 'active-acknowledged' && priority === 'caution' && by === undefined
        ? 'raised'
        : `${STATES[state]}${by === undefined ? '' : ` by ${safe(by)}`}`,
      `${safe(text)}${j === 0 ? ` <span class="small">(${where})</span>` : ''}`,
    ]);
  });
  return table(['No.', 'UTC', 'Priority', 'State', 'Words of the watch'], rows);
}

function gapList(night: Night): string {
  if (night.gaps.length === 0) return '<p>Nothing that there had been before.</p>';
  return table(
    ['From (UTC)', 'To', 'For', 'What'],
    [...night.gaps]
      .sort((a, b) => a.from - b.from)
      .map((gap) => [
        moment(gap.from),
        gap.to === undefined ? 'goes on' : time(gap.to),
        lasting(until(night, gap) - gap.from),
        `${GAPS[gap.kind]}${gap.why === undefined ? '' : `: ${safe(gap.why)}`}`,
      ]),
  );
}

function story({ story }: Night): string {
  if (story.length === 0) return '<p>Nothing beside the alerts.</p>';
  return table(
    ['UTC', 'By', 'What'],
    story.map(({ at, by, text }) => [moment(at), safe(by ?? ''), safe(text)]),
  );
}

function quality({ summary: { sentences, rejected, gaps, doubts } }: Night): string {
  const refused = rejected.checksum + rejected.malformed;
  return `${list([
    ['Sentences used', String(sentences)],
    ['Refused', `${refused} (${rejected.checksum} with a wrong checksum, ${rejected.malformed} malformed)`],
    ['Of kinds that hawse does not read', String(rejected.unknown)],
    [
      'Gaps',
      gaps.count === 0
        ? 'none'
        : `${gaps.count}: ${(Object.entries(gaps.seconds) as [GapKind, number][]).map(([kind, seconds]) => `${GAPS[kind]} ${lasting(seconds)}`).join('; ')}`,
    ],
  ])}${doubts?.length ? `<div class="box"><strong>Doubtful about this record:</strong><ul>${doubts.map((doubt) => `<li>${safe(doubt)}</li>`).join('')}</ul></div>` : ''}`;
}

function checksums({ checksums, summary }: Night): string {
  if (checksums.length === 0)
    return `<p>${summary.to === undefined ? 'The night goes on: checksums are reckoned when she is aweigh.' : 'There are no checksums: the recorded sentences were not kept, or are not reckoned yet.'}</p>`;
  return `<p>SHA-256 over the recorded sentences of this night in each part of the journal, byte for byte as “hawse export --night ${safe(summary.id)} --as nmea” gives them one after the other. Whoever has the sentences can prove that they are unchanged.</p>${table(
    ['Part', 'UTC', 'Lines', 'Bytes', 'SHA-256'],
    checksums.map(({ segment, from, to, lines, bytes, sha256 }) => [
      safe(segment),
      `${moment(from)} to ${time(to)}`,
      String(lines),
      String(bytes),
      `${sha256}`,
    ]),
  ).replaceAll(/<td>([0-9a-f]{64})<\/td>/g, '<td class="hash">$1</td>')}`;
}
