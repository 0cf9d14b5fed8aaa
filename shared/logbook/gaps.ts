import type { VesselView } from '../vessel/view.ts';
import type { Gap, GapKind, NightSummary } from './night.ts';
import type { NightRecord } from './record.ts';

/** Seconds without any sentence that are told as silence: instruments speak at least every few seconds. */
const SILENCE = 10;
/** A gap that begins again so soon after it ended is one gap, seconds. */
const SAME = 5;
/** An instrument that fell silent longer than this before the mark was no instrument of this night, seconds. */
const BEFORE = 60;

/** To be called at each line, before `running.lineAt` is set anew. */
export function noteSilence({ night, running }: NightRecord, at: number): void {
  const last = running.lineAt ?? night.summary.from;
  if (at - last <= SILENCE) return;
  const why =
    running.startedAt !== undefined && running.startedAt >= last
      ? 'hawse was not running'
      : 'no sentence came on any input';
  night.gaps.push({ kind: 'silence', from: last, to: at, why });
  // The line that ends the silence may bring a fix already: that there was none until then must not be lost.
  if (running.open.position === undefined) night.gaps.push({ kind: 'position', from: last, to: at, why });
}

/** To be called once a second: opens and closes gaps by what is known of the boat now. */
export function noteGaps(record: NightRecord, vessel: VesselView): void {
  const { roller, positionDoubt, heading, depth, windGround, windApparent, ages } = vessel;
  set(record, vessel, 'position', roller ? undefined : ages.position, !roller);
  set(record, vessel, 'heading', heading ? undefined : ages.heading);
  set(record, vessel, 'wind', windGround || windApparent ? undefined : ages.wind);
  set(record, vessel, 'depth', depth ? undefined : ages.depth);
  if (positionDoubt && roller) {
    const from = Math.max(record.night.summary.from, positionDoubt.since);
    open(record, { kind: 'doubtful', from, why: positionDoubt.reason });
  } else close(record, 'doubtful', vessel.at);
}

/** `age` of the last value when it is missing now. One that never was there is a gap only when `always`. */
function set(
  record: NightRecord,
  { at }: VesselView,
  kind: GapKind,
  age: number | undefined,
  always = false,
): void {
  const { from } = record.night.summary;
  const last = age === undefined ? undefined : at - age;
  if (last !== undefined && (always || last > from - BEFORE))
    open(record, { kind, from: Math.max(from, last) });
  else if (always) open(record, { kind, from });
  else close(record, kind, at);
}

function open({ night: { gaps }, running }: NightRecord, gap: Gap): void {
  if (running.open[gap.kind] !== undefined) return;
  let index = gaps.length - 1;
  while (index >= 0 && gaps[index]!.kind !== gap.kind) index--;
  const last = gaps[index];
  if (last?.to !== undefined && gap.from - last.to <= SAME && gap.why === last.why) delete last.to;
  else index = gaps.push(gap) - 1;
  running.open[gap.kind] = index;
}

function close({ night: { gaps }, running }: NightRecord, kind: GapKind, at: number): void {
  const index = running.open[kind];
  if (index === undefined) return;
  gaps[index]!.to = at;
  delete running.open[kind];
}

/** The night is over: what goes on ends with it. */
export function closeGaps(record: NightRecord, at: number): void {
  for (const kind of Object.keys(record.running.open) as GapKind[]) close(record, kind, at);
}

/** Number of gaps, and seconds by kind up to `upTo`. */
export function countGaps(gaps: readonly Gap[], upTo: number): NightSummary['gaps'] {
  const seconds: NightSummary['gaps']['seconds'] = {};
  for (const { kind, from, to = upTo } of gaps) seconds[kind] = (seconds[kind] ?? 0) + Math.max(0, to - from);
  return { count: gaps.length, seconds };
}
