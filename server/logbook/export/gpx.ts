import { BREAK, type Exported, isoTime, placeAt, title } from './exported.ts';

const HEAD = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="hawse" xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd">
`;

/** GPX 1.1: the mark and alarms as waypoints, the roller's way as a track, broken where there was no fix. */
export async function* gpx({ night, remark, fixes }: Exported): AsyncGenerator<string> {
  const { summary, alerts, strips } = night;
  const { mark } = summary;
  yield HEAD;
  const about = [
    ...(summary.notes === undefined ? [] : [summary.notes]),
    ...(remark === undefined ? [] : [remark]),
  ];
  yield ` <metadata><name>${text(title(night))}</name>${about.length > 0 ? `<desc>${text(about.join('\n'))}</desc>` : ''}<time>${isoTime(summary.from)}</time></metadata>\n`;
  yield waypoint(mark, mark.at, 'Drop mark', `Uncertain by ${mark.sigma.toFixed(1)} m per axis.`, 'Anchor');
  for (const { priority, kind, text: words, from } of alerts) {
    const place = priority === 'caution' ? undefined : placeAt(strips, from);
    if (place) yield waypoint(place, from, `${priority}: ${kind}`, words, 'Danger Area');
  }
  yield ` <trk><name>Bow roller</name>`;
  let last: number | undefined;
  for await (const { at, lat, lon } of fixes) {
    if (last === undefined) yield '<trkseg>\n';
    else if (at - last > BREAK) yield ' </trkseg><trkseg>\n';
    last = at;
    yield `  <trkpt ${position(lat, lon)}><time>${isoTime(at)}</time></trkpt>\n`;
  }
  if (last !== undefined) yield ' </trkseg>';
  yield '</trk>\n</gpx>\n';
}

function waypoint(
  place: { lat: number; lon: number },
  at: number,
  name: string,
  words: string,
  sym: string,
): string {
  return ` <wpt ${position(place.lat, place.lon)}><time>${isoTime(at)}</time><name>${text(name)}</name><desc>${text(words)}</desc><sym>${sym}</sym></wpt>\n`;
}

/** Eight decimals are a millimetre. The schema wants −180 ≤ longitude < 180. */
const position = (lat: number, lon: number): string =>
  `lat="${lat.toFixed(8)}" lon="${(Number(lon.toFixed(8)) >= 180 ? lon - 360 : lon).toFixed(8)}"`;

const ESCAPES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
/** What XML 1.0 has no way to write: control characters but for tab and line ends, halves of surrogate pairs. */
const UNWRITABLE = /(?![\t\n\r])[\p{Cc}\p{Cs}\ufffe\uffff]/gu;
const text = (words: string): string =>
  words.replace(UNWRITABLE, '\ufffd').replace(/[&<>"]/g, (character) => ESCAPES[character]!);
