import { BREAK, type Exported, isoTime, placeAt, title } from './exported.ts';

type Position = [number, number];

/**
 * GeoJSON (RFC 7946): a collection of the roller's way as a line for each stretch of fixes, the mark, and where she was when alerts came.
 * A line is cut at the antimeridian (§3.1.9). `times` has a time for each position; a stretch of one fix has its position twice, since a
 * line needs two.
 */
export async function* geojson({ night, remark, fixes }: Exported): AsyncGenerator<string> {
  const { summary, alerts, strips, gaps, settings } = night;
  const { mark } = summary;
  yield '{"type":"FeatureCollection","features":[\n';
  yield feature(
    { type: 'Point', coordinates: position(mark) },
    {
      kind: 'mark',
      name: title(night),
      time: isoTime(mark.at),
      sigmaMetres: mark.sigma,
      ...(settings.circle ? { circleMetres: settings.circle.radius } : {}),
      ...(remark === undefined ? {} : { remark }),
      summary,
      gaps,
    },
  );
  for (const { priority, kind, text, from, to } of alerts) {
    const place = placeAt(strips, from);
    if (!place) continue;
    yield `,\n${feature(
      { type: 'Point', coordinates: position(place) },
      {
        kind: 'alert',
        alert: kind,
        priority,
        text,
        time: isoTime(from),
        ...(to === undefined ? {} : { until: isoTime(to) }),
      },
    )}`;
  }
  let line: Position[] = [];
  let times: string[] = [];
  let last: { at: number; place: Position } | undefined;
  const finished = (): string => {
    if (line.length === 1) {
      line.push(line[0]!);
      times.push(times[0]!);
    }
    return `,\n${feature({ type: 'LineString', coordinates: line }, { kind: 'track', times })}`;
  };
  for await (const fix of fixes) {
    const place = position(fix);
    const time = isoTime(fix.at);
    if (last && fix.at - last.at > BREAK) {
      yield finished();
      [line, times] = [[], []];
    } else if (last && Math.abs(place[0] - last.place[0]) > 180) {
      const edge = crossing(last.place, place);
      const side = last.place[0] > 0 ? 180 : -180;
      line.push([side, edge]);
      times.push(time);
      yield finished();
      [line, times] = [[[-side, edge]], [time]];
    }
    line.push(place);
    times.push(time);
    last = { at: fix.at, place };
  }
  if (line.length > 0) yield finished();
  yield '\n]}\n';
}

const feature = (geometry: unknown, properties: unknown): string =>
  JSON.stringify({ type: 'Feature', geometry, properties });

const position = ({ lat, lon }: { lat: number; lon: number }): Position => [
  Number(lon.toFixed(8)),
  Number(lat.toFixed(8)),
];

/** Latitude where the way from `a` to `b` crosses the antimeridian. */
function crossing(a: Position, b: Position): number {
  const before = 180 - Math.abs(a[0]);
  const after = 180 - Math.abs(b[0]);
  const part = before + after > 0 ? before / (before + after) : 0;
  return Number((a[1] + part * (b[1] - a[1])).toFixed(8));
}
