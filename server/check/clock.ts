import { type Finding, fault, good, look } from './finding.ts';

/** What is known of the clock; UNIX seconds. */
export interface ClockFacts {
  now: number;
  /** UTC by a receiver minus the clock, seconds; absent: no receiver told the time. */
  offset?: number;
  /** When the newest recorded segment began; absent: nothing is recorded. */
  recorded?: number;
  /** A clock with a battery of its own; absent: not known. */
  hasBattery?: boolean;
}

/** This version was made in 2026; computers that lost their clock begin in 1970, or with their system's own date. */
const EARLIEST = Date.UTC(2026, 0, 1) / 1000;
const LATEST = Date.UTC(2100, 0, 1) / 1000;
/** As the watch itself tolerates: docs/journal.md, "The clock". */
const TOLERATED = 5;
/** A log may lie a little ahead: its time runs on by itself. */
const AHEAD = 60;

const SET =
  'set it (sudo timedatectl set-ntp true with a network, or sudo date -u -s "YYYY-MM-DD hh:mm:ss"), then start hawse';

/** Judges the clock. Pure. */
export function checkClock({ now, offset, recorded, hasBattery }: ClockFacts): Finding[] {
  const findings: Finding[] = [];
  const told = `${iso(now)} UTC`;
  if (now < EARLIEST || now > LATEST) findings.push(fault('clock', `the computer’s clock says ${told}`, SET));
  else if (offset !== undefined && Math.abs(offset) > TOLERATED)
    findings.push(
      fault(
        'clock',
        `the clock is ${spanOf(Math.abs(offset))} ${offset > 0 ? 'behind' : 'ahead of'} the receiver’s UTC`,
        SET,
      ),
    );
  else
    findings.push(
      good(
        'clock',
        `${told}${offset === undefined ? '; no receiver has told the time' : ', as the receiver says'}`,
      ),
    );
  if (recorded !== undefined && recorded > now + AHEAD)
    findings.push(
      fault(
        'clock',
        `the log ends at ${iso(recorded)} UTC, ahead of the clock (${told})`,
        'set the clock; if it was the log’s clock that was wrong, begin a new log with another --data folder',
      ),
    );
  if (hasBattery === false)
    findings.push(
      look(
        'clock',
        'this computer has no clock that runs while it is off',
        'let a receiver send RMC or ZDA, or fit a clock module',
      ),
    );
  return findings;
}

const iso = (at: number): string => new Date(at * 1000).toISOString().slice(0, 19).replace('T', ' ');

function spanOf(seconds: number): string {
  if (seconds < 120) return `${Math.round(seconds)} s`;
  if (seconds < 7200) return `${Math.round(seconds / 60)} min`;
  return seconds < 172_800 ? `${Math.round(seconds / 3600)} h` : `${Math.round(seconds / 86_400)} days`;
}
