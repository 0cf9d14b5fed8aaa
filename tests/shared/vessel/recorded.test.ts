import { describe, expect, test } from 'vitest';
import type { VesselView } from '../../../shared/vessel/view.ts';
import { Rig, settings } from './help.ts';
import { type HeardAt, recording } from './recording.ts';

const utc = (text: string) => Date.parse(`${text}Z`) / 1000;

interface Watched {
  rig: Rig;
  /** One view a second. */
  views: VesselView[];
}

const lived = new Map<HeardAt[], Watched>();

/** Lives through a recording, looking once a second; the same recording only once. */
function live(heard: HeardAt[]): Watched {
  const known = lived.get(heard);
  if (known) return known;
  const rig = new Rig(heard[0]!.at, settings);
  const views: VesselView[] = [];
  let second = Math.floor(heard[0]!.at);
  for (const { at, sentence } of heard) {
    for (; second < Math.floor(at); second++) views.push(rig.view(second + 1));
    rig.hear(at, sentence);
  }
  const watched = { rig, views };
  lived.set(heard, watched);
  return watched;
}

/** Runs of seconds in which something holds, as [from, seconds]. */
function runs(views: VesselView[], holds: (view: VesselView) => boolean): [number, number][] {
  const found: [number, number][] = [];
  let from: number | undefined;
  for (const view of views) {
    if (holds(view)) from ??= view.at;
    else if (from !== undefined) {
      found.push([from, view.at - from]);
      from = undefined;
    }
  }
  if (from !== undefined) found.push([from, views.at(-1)!.at + 1 - from]);
  return found;
}
const isLost = (view: VesselView) => !view.antenna;
const isDoubtful = (view: VesselView) => view.positionDoubt !== undefined;

describe('lake-2014-06-27: the fix freezes for 38 minutes with good status and checksum', () => {
  const heard = recording('boat-lake/lake-2014-06-27.nmea.gz');
  const freeze = utc('2014-06-26T15:12:16');

  test.runIf(heard)('it is gone within ten seconds and stays away, while wind and heading live on', () => {
    const { views } = live(heard!);
    const lost = runs(views, isLost).find(([from]) => from >= freeze)!;
    expect(lost[0] - freeze).toBeLessThanOrEqual(10);
    expect(lost[1]).toBeGreaterThan(38 * 60);
    const meanwhile = views.filter((view) => view.at > lost[0] && view.at < lost[0] + lost[1]);
    expect(meanwhile.every((view) => !view.roller && !view.sog && !view.cog && !view.positionSigma)).toBe(
      true,
    );
    expect(
      meanwhile.filter((view) => view.windApparent && view.heading && view.depth).length,
    ).toBeGreaterThan(0.95 * meanwhile.length);
    expect(meanwhile.at(-1)!.ages.position).toBeGreaterThan(38 * 60);
  });

  test.runIf(heard)(
    'the jumps of 52 and 70 m before, and the return 52 m away, are doubtful; sailing is not',
    () => {
      const doubts = runs(live(heard!).views, isDoubtful);
      const back = heard!.find(
        ({ at, sentence }) => sentence.id === 'RMC' && at > freeze + 2000 && saysTime(sentence, '15:50:38'),
      )!.at;
      expect(doubts).toHaveLength(2);
      expect(doubts[0]![0]).toBeLessThanOrEqual(utc('2014-06-26T15:10:23'));
      expect(doubts[0]![1]).toBeGreaterThanOrEqual(60);
      expect(doubts[0]![1]).toBeLessThan(120);
      expect(Math.abs(doubts[1]![0] - back)).toBeLessThanOrEqual(1);
      expect(doubts[1]![1]).toBeLessThan(90);
    },
  );
});

function saysTime(sentence: HeardAt['sentence'], clock: string): boolean {
  const seconds = utc(`1970-01-01T${clock}`);
  return sentence.observations.some((said) => said.kind === 'time' && said.timeOfDay === seconds);
}

describe('lake-2014-08-19: static hold at the berth, then a sail', () => {
  const heard = recording('boat-lake/lake-2014-08-19.nmea.gz');

  test.runIf(heard)(
    'the position held up to 366 s is neither lost nor doubtful, nor is anything later',
    () => {
      const { views, rig } = live(heard!);
      const rest = views.filter((view) => view.at > heard![0]!.at + 2 && view.at < heard![0]!.at + 29 * 60);
      expect(rest.length).toBeGreaterThan(1700);
      expect(runs(rest, isLost)).toEqual([]);
      expect(runs(views, isDoubtful)).toEqual([]);
      expect(rig.fixes).toBeGreaterThan(7000);
    },
  );

  test.runIf(heard)('the sounder with an offset of +0.7 gives the depth below the surface', () => {
    const { views } = live(heard!);
    const depth = views[600]!.depth!.value;
    expect(depth.surface! - depth.measured).toBeCloseTo(0.7, 9);
  });
});

describe('lake-2008-07-10: half a fix a second', () => {
  const heard = recording('boat-lake/lake-2008-07-10.nmea.gz');

  test.runIf(heard)('is never lost between fixes nor doubtful', () => {
    const { views } = live(heard!);
    expect(runs(views.slice(5), isDoubtful)).toEqual([]);
    const lost = runs(views.slice(5), isLost).reduce((sum, [, seconds]) => sum + seconds, 0);
    expect(lost).toBeLessThan(0.01 * views.length);
  });
});

describe('ijsselmeer: the whole instrument set under way', () => {
  const heard = recording('boat-ijsselmeer-2018/ijsselmeer.nmea');

  test.runIf(heard)('every quantity is served by the best sentence, none doubtful', () => {
    const { views } = live(heard!);
    expect(runs(views.slice(3), isLost)).toEqual([]);
    expect(runs(views, isDoubtful)).toEqual([]);
    expect(views[100]!.sources).toEqual({
      position: 'udp1:GPGGA',
      motion: 'udp1:GPRMC',
      heading: 'udp1:SDHDG',
      wind: 'udp1:WIMWV',
      depth: 'udp1:SDDPT',
      'water-speed': 'udp1:SDVHW',
    });
    expect(views[100]!.heading?.from).toBe('magnetic-sensor');
  });

  /** The instruments' own MWD is reckoned with the log (speed 6.6 kn against 5.6 kn over ground), so it is only near. */
  test.runIf(heard)(
    'ground wind computed from apparent wind, heading and motion is near what the instruments state',
    () => {
      const stated = live(heard!).views;
      const computed = live(heard!.filter(({ sentence }) => sentence.id !== 'MWD')).views;
      let compared = 0;
      for (const [i, view] of stated.entries()) {
        const a = view.windGround?.value;
        const b = computed[i]?.windGround?.value;
        if (!a || !b || i < 10) continue;
        compared++;
        expect(Math.abs(a.speed - b.speed)).toBeLessThan(2.5);
        expect(Math.abs(((a.from - b.from + 540) % 360) - 180)).toBeLessThan(35);
      }
      expect(compared).toBeGreaterThan(100);
    },
  );
});

describe('damaged and odd receivers', () => {
  const back = recording('damaged/clock-back-2014-07-22.nmea.gz');
  test.runIf(back)(
    'a minute that repeats itself for a quarter of an hour loses no position and floods no log',
    () => {
      const { views, rig } = live(back!);
      const stuck = views.filter(
        (view) => view.at > utc('2014-07-22T08:03:00') && view.at < utc('2014-07-22T08:13:00'),
      );
      expect(stuck.length).toBeGreaterThan(500);
      expect(runs(stuck, isLost)).toEqual([]);
      expect(rig.notes.filter((note) => note.includes('clock back')).length).toBeLessThan(6);
    },
  );

  const humminbird = recording('quirks/humminbird-M37.log');
  test.runIf(humminbird)('time that goes back by 13 s is believed again after three sentences', () => {
    const { views, rig } = live(humminbird!);
    expect(rig.notes.filter((note) => note.includes('set its clock back'))).toHaveLength(1);
    expect(runs(views, isDoubtful)).toEqual([]);
  });

  const april = recording('quirks/april6_2019.log', utc('2019-04-07T00:00:00'));
  test.runIf(april)(
    'a receiver that fell back to 1999 at the week rollover still tells the right time',
    () => {
      const { rig } = live(april!);
      expect(rig.fixes).toBe(1);
      expect(rig.view().clockOffset).toBeCloseTo(0, 6);
    },
  );

  const coldboot = recording('quirks/gp-320fw-2019-04-07-coldboot.log', utc('2019-04-07T00:00:00'));
  test.runIf(coldboot)(
    'a cold boot with zero positions and dates of 1999 to 2010 shows no position and no wrong time',
    () => {
      const { views, rig } = live(coldboot!);
      expect(rig.fixes).toBeGreaterThan(0);
      expect(views.slice(12).every((view) => !view.antenna)).toBe(true);
      for (const { clockOffset } of views) expect(Math.abs(clockOffset ?? 0)).toBeLessThan(2);
    },
  );
});
