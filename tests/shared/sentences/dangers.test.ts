import { describe, expect, test } from 'vitest';
import { FATHOM, FOOT, KNOT } from '../../../shared/quantities/units.ts';
import type { Observation } from '../../../shared/sentences/observation.ts';
import { accepted, only, refuse, refused, say } from './read.ts';

/** UNIX time of a day, from the calendar of the host's runtime and not from the code under test. */
const day = (iso: string) => Date.parse(`${iso}T00:00:00Z`) / 1000;
const kinds = (observations: Observation[]) => observations.map((observation) => observation.kind);

describe('blank is not zero', () => {
  test.each([
    'GPHDT,,T',
    'HCHDM,,M',
    'HCHDG,,,,,',
    'INTHS,,A',
    'HEROT,,A',
    'SDDPT,,0.5,',
    'SDDBT,,f,,M,,F',
    'SDMTW,,C',
    'IIVHW,,T,,M,,N,,K',
    'IIVHW,,,,,,,,',
    'WIMWV,,R,,N,A',
    'WIMWV,045,R,,N,A',
    'WIMWV,,R,10.0,N,A',
    'IIVWR,,,,,,,,',
    'IIVWR,045,L,,N,,M,,K',
    'WIMWD,,T,,M,,N,,M',
    'GPVTG,,T,,M,,N,,K,A',
    'IIVDR,,T,,M,,N',
    'VMVBW,,,A,,,A',
    'SDVLW,,N,,N',
    'GPZDA,,,,,,',
    'GPGST,,,,,,,,',
  ])('%s says nothing', (body) => {
    expect(say(body)).toEqual([]);
  });

  test('a blank quantity beside a full one leaves the full one alone', () => {
    expect(say('IIVHW,,,154,M,,N,,')).toEqual([
      { kind: 'heading-magnetic', heading: 154, deviationApplied: true },
    ]);
    expect(only(say('GNRMC,001031.00,A,4404.13993,N,12118.86023,W,0.146,,100117,,,A'), 'motion')).toEqual({
      kind: 'motion',
      sog: 0.146 * KNOT,
    });
    expect(
      only(say('GPGGA,000000.00,4155.64795,N,00845.75743,E,1,08,,101.3,M,,M,,'), 'position'),
    ).toMatchObject({
      satellites: 8,
    });
    expect(
      only(say('GPGGA,000000.00,4155.64795,N,00845.75743,E,1,08,,101.3,M,,M,,'), 'position'),
    ).not.toHaveProperty('hdop');
  });

  test('a true zero is zero', () => {
    expect(say('IIHDT,0.0,T')).toEqual([{ kind: 'heading', heading: 0 }]);
    expect(say('SDDPT,0.0,0.0')).toEqual([{ kind: 'depth', depth: 0, reference: 'transducer', offset: 0 }]);
    expect(say('IIMWV,0,R,0.0,N,A')).toEqual([{ kind: 'wind-apparent', angle: 0, speed: 0 }]);
    expect(Object.is(only(say('HEROT,-0.0,A'), 'rate-of-turn')?.rate, 0)).toBe(true);
  });
});

describe('no position where there is none', () => {
  const noPosition = (body: string) => {
    const observations = say(body);
    expect(only(observations, 'position')).toBeUndefined();
    expect(only(observations, 'motion')).toBeUndefined();
    return only(observations, 'no-position');
  };

  test('0/0 with status A and a valid checksum', () => {
    expect(noPosition('GPRMC,000000.00,A,0000.0000,N,00000.0000,E,0.0,0.0,050505,,,A')).toEqual({
      kind: 'no-position',
      reason: 'zero',
      timeOfDay: 0,
    });
    expect(noPosition('GPGGA,120000,0000.0000,N,00000.0000,E,1,08,0.9,0.0,M,0.0,M,,')?.reason).toBe('zero');
    expect(noPosition('GPGLL,0000.000,S,00000.000,W,120000,A,A')?.reason).toBe('zero');
    expect(noPosition('GNGNS,120000,0000.000,N,00000.000,E,AA,08,0.9,0.0,0.0,,')?.reason).toBe('zero');
  });

  test('0/0 with fewer digits than the standard asks for, as a receiver sent it (nmea-0183.md §1.2)', () => {
    expect(noPosition('GPRMC,000000.00,A,0.000,N,0.000,E,0.0,0.0,050505,,')?.reason).toBe('zero');
  });

  test('on the equator or the meridian of Greenwich there is a position', () => {
    expect(only(say('GPGLL,0000.000,N,00130.000,W,120000,A,A'), 'position')).toMatchObject({
      lat: 0,
      lon: -1.5,
    });
    expect(only(say('GPGLL,5130.000,N,00000.000,E,120000,A,A'), 'position')).toMatchObject({
      lat: 51.5,
      lon: 0,
    });
  });

  test('a stale position kept at quality 0 or status V', () => {
    const gga = 'GPGGA,170958.972,5200.8499,N,00421.7860,E,0,00,0.0,48.8,M,0.0,M,,0000';
    expect(noPosition(gga)).toMatchObject({ reason: 'no-fix', timeOfDay: 17 * 3600 + 9 * 60 + 58.972 });
    expect(noPosition('GPRMC,170958,V,5200.8499,N,00421.7860,E,3.0,90.0,080608,,')?.reason).toBe('no-fix');
    expect(noPosition('GPGLL,5200.8499,N,00421.7860,E,170958,V,N')?.reason).toBe('no-fix');
    expect(noPosition('GPGNS,170958,5200.8499,N,00421.7860,E,NN,00,,,,,')?.reason).toBe('no-fix');
  });

  test('rubbish in the position fields of a sentence that claims no fix does not lose its time (tn200-all.log)', () => {
    const observations = say('GPRMC,000452.981,V,36000.0000,N,72000.0000,E,0.000000,,190120,,');
    expect(only(observations, 'no-position')?.reason).toBe('no-fix');
    expect(only(observations, 'time')).toEqual({ kind: 'time', timeOfDay: 292.981, date: day('2020-01-19') });
    expect(refuse('GPRMC,000452.981,A,36000.0000,N,72000.0000,E,0.000000,,190120,,').reason).toBe(
      'malformed',
    );
  });

  test('blank position with a status that says valid', () => {
    expect(noPosition('GPRMC,120000,A,,,,,,,010124,,,A')?.reason).toBe('blank');
    expect(noPosition('GPGGA,120000,,,,,1,08,0.9,,M,,M,,')?.reason).toBe('blank');
  });

  test('blank status or quality vouches for nothing', () => {
    expect(noPosition('GPRMC,120000,,4807.038,N,01131.000,E,3.0,90.0,010124,,')?.reason).toBe('blank');
    expect(noPosition('GPGGA,120000,4807.038,N,01131.000,E,,08,0.9,545.4,M,46.9,M,,')?.reason).toBe('blank');
    expect(noPosition('GPGLL,4807.038,N,01131.000,E,120000,,')?.reason).toBe('blank');
    expect(noPosition('GNGNS,120000,4807.038,N,01131.000,E,,08,0.9,,,,')?.reason).toBe('blank');
  });

  test.each([
    ['7', 'manual'],
    ['8', 'simulated'],
    ['0', 'no-fix'],
  ])('GGA quality %s is %s', (quality, reason) => {
    expect(noPosition(`GPGGA,120000,4807.038,N,01131.000,E,${quality},08,0.9,545.4,M,46.9,M,,`)?.reason).toBe(
      reason,
    );
  });

  test.each([
    ['1', 'autonomous'],
    ['2', 'differential'],
    ['3', 'precise'],
    ['4', 'rtk'],
    ['5', 'rtk-float'],
    ['6', 'estimated'],
  ])('GGA quality %s is %s', (quality, told) => {
    const body = `GPGGA,120000,4807.038,N,01131.000,E,${quality},08,0.9,545.4,M,46.9,M,,`;
    expect(only(say(body), 'position')).toMatchObject({ quality: told, satellites: 8, hdop: 0.9 });
  });

  test('GGA quality 9 is none that the standard knows', () => {
    expect(refuse('GPGGA,120000,4807.038,N,01131.000,E,9,08,0.9,545.4,M,46.9,M,,').reason).toBe('malformed');
  });
});

describe('RMC status and mode', () => {
  const rmc = (status: string, mode: string) =>
    say(`GPRMC,120000,${status},4807.038,N,01131.000,E,3.0,90.0,010124,,,${mode}`);

  test.each([
    ['A', 'autonomous'],
    ['D', 'differential'],
    ['F', 'rtk-float'],
    ['P', 'precise'],
    ['R', 'rtk'],
    ['', 'autonomous'],
  ])('A with mode "%s" is a fix: %s', (mode, quality) => {
    expect(only(rmc('A', mode), 'position')?.quality).toBe(quality);
    expect(only(rmc('A', mode), 'motion')).toEqual({ kind: 'motion', sog: 3 * KNOT, cog: 90 });
  });

  test('A with mode E is a position reckoned, and its speed is not told as a measured one', () => {
    expect(only(rmc('A', 'E'), 'position')?.quality).toBe('estimated');
    expect(only(rmc('A', 'E'), 'motion')).toBeUndefined();
  });

  test.each([
    ['N', 'no-fix'],
    ['S', 'simulated'],
    ['M', 'manual'],
  ])('A with mode %s is no position: %s', (mode, reason) => {
    expect(only(rmc('A', mode), 'position')).toBeUndefined();
    expect(only(rmc('A', mode), 'motion')).toBeUndefined();
    expect(only(rmc('A', mode), 'no-position')?.reason).toBe(reason);
  });

  test('V is no position, whatever the mode', () => {
    for (const mode of ['', 'A', 'D', 'E', 'N', 'R'])
      expect(only(rmc('V', mode), 'no-position')?.reason).toBe('no-fix');
    expect(only(rmc('V', 'S'), 'no-position')?.reason).toBe('simulated');
    expect(only(rmc('V', 'M'), 'no-position')?.reason).toBe('manual');
  });

  test('another status letter, or another mode letter, is malformed', () => {
    expect(refuse('GPRMC,120000,L,4807.038,N,01131.000,E,3.0,90.0,010124,,,A').reason).toBe('malformed');
    expect(refuse('GPRMC,120000,A,4807.038,N,01131.000,E,3.0,90.0,010124,,,X').reason).toBe('malformed');
  });

  test('navigational status V of version 4.10 does not make a good fix bad', () => {
    const body = 'GPRMC,223251.00,A,3757.92653,N,12231.94543,W,0.068,338.51,210416,0.00,E,A,V';
    expect(only(say(body), 'position')?.quality).toBe('autonomous');
  });

  test('the mode stands in place of a side that was left out (saab-r4.log)', () => {
    const observations = say('GPRMC,130711.00,A,5012.790800,N,00806.879600,W,0.5,3.0,010611,,A');
    expect(only(observations, 'position')?.quality).toBe('autonomous');
    expect(only(observations, 'variation')).toBeUndefined();
    expect(
      only(say('GPRMC,130711.00,A,5012.7908,N,00806.8796,W,0.5,3.0,010611,,N'), 'position'),
    ).toBeUndefined();
    expect(refuse('GPRMC,130711.00,A,5012.7908,N,00806.8796,W,0.5,3.0,010611,2.5,A').reason).toBe(
      'malformed',
    );
  });

  test('GNS is as good as the best of its systems', () => {
    const gns = (modes: string) => say(`GNGNS,112257.00,3844.24011,N,00908.43828,W,${modes},03,10.5,,,,`);
    expect(only(gns('NA'), 'position')?.quality).toBe('autonomous');
    expect(only(gns('DRN'), 'position')?.quality).toBe('rtk');
    expect(only(gns('NE'), 'position')?.quality).toBe('estimated');
    expect(only(gns('NNS'), 'no-position')?.reason).toBe('simulated');
    expect(only(gns('MN'), 'no-position')?.reason).toBe('manual');
    expect(refuse('GNGNS,112257.00,3844.24011,N,00908.43828,W,AX,03,10.5,,,,').reason).toBe('malformed');
  });
});

describe('latitude and longitude', () => {
  const gll = (lat: string, lon = '01131.000,E') => `GPGLL,${lat},${lon},120000,A,A`;

  test('without a point the minutes are whole: 4807 is 48°07′', () => {
    const position = only(say('GPGLL,4807,N,01131,E,120000,A,A'), 'position');
    expect(position?.lat).toBeCloseTo(48 + 7 / 60, 12);
    expect(position?.lon).toBeCloseTo(11 + 31 / 60, 12);
    expect(position?.resolution).toBe(1852);
  });

  test('60 minutes, more than 90 or 180 degrees, a missing hemisphere, half a position', () => {
    for (const lat of [
      '4875.000,N',
      '4860.000,N',
      '9000.001,N',
      '9999.999,N',
      '4807.038,',
      '4807.038,E',
      '4807.038,n',
    ])
      expect([lat, refuse(gll(lat)).reason]).toEqual([lat, 'malformed']);
    for (const lon of ['18000.001,E', '01175.000,E', '01131.000,', '01131.000,N', ',', ',E'])
      expect([lon, refuse(gll('4807.038,N', lon)).reason]).toEqual([lon, 'malformed']);
    expect(refuse(gll(',N')).why).toContain('half a position');
  });

  test('rubbish among the digits', () => {
    for (const lat of [
      '48O7.038,N',
      '4807.0E3,N',
      '4807..038,N',
      '4807.03.8,N',
      '.038,N',
      '-807.038,N',
      '+4807.038,N',
      ' 4807.038,N',
    ])
      expect([lat, refuse(gll(lat)).reason]).toEqual([lat, 'malformed']);
  });

  test('90 degrees and 180 degrees exist', () => {
    expect(only(say(gll('9000.000,S', '18000.000,W')), 'position')).toMatchObject({ lat: -90, lon: -180 });
  });

  test('digits lost in pairs leave the checksum right and the number of digits wrong', () => {
    for (const [lat, lon] of [
      ['807.038,N', '01131.000,E'],
      ['4807.038,N', '031.000,E'],
      ['4807.038,N', '1131.000,E'],
      ['04807.038,N', '01131.000,E'],
    ])
      expect(refuse(gll(lat!, lon)).why).toContain('digits before the point');
  });

  test('a truncated sentence whose checksum is right (NeoGPS #38)', () => {
    expect(refused('$GPGGA,201019.00,3249.20458,N,1,-25.6,M,,*6A').reason).toBe('malformed');
    expect(refused('$GPRMC,181536.000,A,5936.79K,D*3A').reason).toBe('malformed');
  });

  test('resolution follows the digits sent, the coarser of the two', () => {
    expect(only(say(gll('4613.027,N', '00609.896,E')), 'position')?.resolution).toBeCloseTo(1.852, 9);
    expect(only(say(gll('4404.14012,N', '12118.85993,W')), 'position')?.resolution).toBeCloseTo(0.01852, 9);
    expect(only(say(gll('4404.14012,N', '12118.8,W')), 'position')?.resolution).toBeCloseTo(185.2, 9);
    expect(only(say(gll('4134.49821229,N', '09345.03351845,W')), 'position')?.resolution).toBeCloseTo(
      1.852e-5,
      12,
    );
  });

  test('a position alone, as units before NMEA 2.0 send it, counts as estimated', () => {
    expect(say('LCGLL,4916.45,N,12311.12,W')).toMatchObject([{ kind: 'position', quality: 'estimated' }]);
    expect(say('LCGLL,4916.45,N,12311.12,W,')).toEqual(say('LCGLL,4916.45,N,12311.12,W'));
    expect(refuse('LCGLL,4916.45,N,12311.12,W,225444').reason).toBe('malformed');
  });
});

describe('field counts', () => {
  test('one field too many is tolerated when it is blank (real receiver, gpsd logs)', () => {
    expect(
      only(accepted('$GNGGA,074150.799,,,,,0,00,,,M,0.0,M,,0000,*64').observations, 'no-position'),
    ).toEqual({
      kind: 'no-position',
      reason: 'no-fix',
      timeOfDay: 7 * 3600 + 41 * 60 + 50.799,
    });
    expect(refuse('GNGGA,074150.799,,,,,0,00,,,M,0.0,M,,0000,1').reason).toBe('malformed');
  });

  test.each([
    'GPGGA,120000,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9',
    'GPRMC,120000,A,4807.038,N,01131.000,E,3.0,90.0,010124',
    'GPGNS,112257.00,3844.24011,N,00908.43828,W,AN,03',
    'GPGLL,4807.038,N,01131.000',
    'WIMWV,57.5,R,13.0,N',
    'SDHDG,229.8',
    'SDDPT,5.3',
    'SDDBT,7.8,f,2.4,M',
    'GPHDT,274.07',
    'IIVWR,092,L,03.0,N',
    'SDVHW,231.3,T,229.9',
    'GPZDA,160012.71,11,03',
    'GPHDT',
  ])('%s is too short', (body) => {
    expect(refuse(body).reason).toBe('malformed');
    expect(refuse(body).why).toMatch(/fields/);
  });

  test('a sentence that is two merged is too long for one (comment in gpsd: Garmin GPS-10)', () => {
    const merged = `GPGGA,120000,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,${','.repeat(70)}`;
    expect(refuse(merged).why).toContain('more than 120');
    expect(refuse(`IITXT,${'x'.repeat(300)}`).why).toContain('more than 256');
  });

  test('an AIS unit leaves out the last field of GGA (saab-r4.log)', () => {
    expect(only(say('GPGGA,130711,5012.790800,N,00806.879600,W,2,,,,,,,'), 'position')).toEqual({
      kind: 'position',
      lat: 50 + 12.7908 / 60,
      lon: -(8 + 6.8796 / 60),
      quality: 'differential',
      resolution: 1852e-6,
      timeOfDay: 13 * 3600 + 7 * 60 + 11,
    });
  });
});

describe('numbers', () => {
  test.each([
    '12abc',
    '1e3',
    'Infinity',
    '-Infinity',
    'NaN',
    '0x10',
    '1.2.3',
    '1..2',
    '1.2.',
    '--5',
    '.',
    '-',
    '+',
    ' 5',
    '5 ',
    '1_0',
  ])('"%s" is none', (text) => {
    for (const body of [`GPHDT,${text},T`, `SDDPT,${text},0.5`, `WIMWV,45,R,${text},N,A`, `SDMTW,${text},C`])
      expect([body, refuse(body).reason]).toEqual([body, 'malformed']);
  });

  test('a leading plus, leading zeros, an empty integer part or fraction are numbers', () => {
    expect(say('IIMTW,+20.5,C')).toEqual([{ kind: 'water-temperature', celsius: 20.5 }]);
    expect(say('IIMTW,-00.50,C')).toEqual([{ kind: 'water-temperature', celsius: -0.5 }]);
    expect(say('IIHDT,.5,T')).toEqual([{ kind: 'heading', heading: 0.5 }]);
    expect(say('IIHDT,271.,T')).toEqual([{ kind: 'heading', heading: 271 }]);
  });

  test('out of range is malformed: 400 degrees, 2000 m/s, a depth below zero or below every sea', () => {
    for (const body of [
      'GPHDT,400,T',
      'GPHDT,-1,T',
      'WIMWV,400,R,10,N,A',
      'WIMWV,45,R,2000,M,A',
      'WIMWV,45,R,-1,N,A',
      'IIVWR,181,L,10,N,,,,',
      'SDDPT,-1.0,0.5',
      'SDDPT,20000,0.5',
      'SDDBT,,,-1,M,,',
      'SDMTW,150,C',
      'GPVTG,90,T,,M,999,N,,K,A',
    ])
      expect([body, refuse(body).reason]).toEqual([body, 'malformed']);
  });

  test('360 degrees is north', () => {
    expect(say('GPHDT,360.0,T')).toEqual([{ kind: 'heading', heading: 0 }]);
    expect(only(say('WIMWV,360,R,5,M,A'), 'wind-apparent')?.angle).toBe(0);
  });
});

describe('time and date', () => {
  const time = (field: string) => only(say(`GPRMC,${field},V,,,,,,,010124,,,N`), 'time')?.timeOfDay;

  test('a fraction of any number of digits', () => {
    const whole = 12 * 3600 + 35 * 60 + 19;
    expect(time('123519')).toBe(whole);
    expect(time('123519.')).toBe(whole);
    expect(time('123519.2')).toBe(whole + 0.2);
    expect(time('123519.25')).toBe(whole + 0.25);
    expect(time('123519.250')).toBe(whole + 0.25);
    expect(time('123519.2500')).toBe(whole + 0.25);
    expect(time('123519.25000000000000000')).toBe(whole + 0.25);
  });

  test('a time that does not exist is malformed; a leap second exists', () => {
    for (const field of [
      '246000',
      '240000',
      '126000',
      '123560',
      '12351',
      '1235',
      '12:35:19',
      '123519,5',
      '-12351',
      '12351a',
    ])
      expect([field, refuse(`GPRMC,${field},V,,,,,,,010124,,,N`).reason]).toEqual([field, 'malformed']);
    expect(time('235960')).toBe(86_400);
  });

  test('a date that does not exist leaves the time without a date', () => {
    for (const date of [
      '011324',
      '2208-1',
      '320124',
      '300223',
      '290223',
      '000124',
      '010024',
      '1124',
      '0101240',
      '',
    ])
      expect([date, only(say(`GPRMC,120000,A,4807.038,N,01131.000,E,,,${date},,`), 'time')]).toEqual([
        date,
        { kind: 'time', timeOfDay: 43_200 },
      ]);
  });

  test('a real date after the week rollover: 2208-1 beside a position that is right (april6_2019.log)', () => {
    const observations = accepted(
      '$GPRMC,000231.099,A,4829.0005,N,00022.0015,E,0.15,212.28,2208-1,,,A*73',
    ).observations;
    expect(kinds(observations)).toEqual(['time', 'position', 'motion']);
    expect(only(observations, 'time')).not.toHaveProperty('date');
  });

  test('two-digit years turn at 80', () => {
    const date = (field: string) => only(say(`GPRMC,120000,V,,,,,,,${field},,,N`), 'time')?.date;
    expect(date('010180')).toBe(day('1980-01-01'));
    expect(date('311299')).toBe(day('1999-12-31'));
    expect(date('010100')).toBe(day('2000-01-01'));
    expect(date('290200')).toBe(day('2000-02-29'));
    expect(date('311279')).toBe(day('2079-12-31'));
  });

  test('every day of ZDA from 1980 to 2100 is the day of the calendar', () => {
    for (let at = day('1980-01-01'); at < day('2100-03-02'); at += 86_400) {
      const [year, month, date] = new Date(at * 1000).toISOString().slice(0, 10).split('-');
      expect(only(say(`GPZDA,000000,${date},${month},${year},,`), 'time')?.date).toBe(at);
    }
  });

  test('a sentence without a date gets none: the date of the host is never used', () => {
    for (const body of [
      'GPGGA,235959,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,',
      'GPGLL,4807.038,N,01131.000,E,235959,A,A',
      'GPGNS,235959,4807.038,N,01131.000,E,A,08,0.9,545.4,46.9,,',
    ])
      expect(only(say(body), 'time')).toEqual({ kind: 'time', timeOfDay: 86_399 });
  });

  test('the time is told when the fix is invalid', () => {
    expect(kinds(say('GPRMC,235948.00,V,0000.0000,N,00000.0000,E,,,161206,,,N'))).toEqual([
      'time',
      'no-position',
    ]);
    expect(kinds(say('GNGNS,074150.799,,,,,NNNN,00,,,0.0,,0000'))).toEqual(['time', 'no-position']);
    expect(kinds(say('GPRMC,,V,,,,,,,,,,N'))).toEqual(['no-position']);
  });

  test('ZDA: the local zone is not applied', () => {
    expect(say('GPZDA,160012.71,11,03,2004,-1,00')).toEqual([
      { kind: 'time', timeOfDay: 16 * 3600 + 12.71, date: day('2004-03-11') },
    ]);
    for (const date of ['11,13,2004', '11,03,04', '11,3,2004', '06,01,1970', '-1,03,2004', ',,'])
      expect([date, say(`GPZDA,160012.71,${date},,`)]).toEqual([
        date,
        [{ kind: 'time', timeOfDay: 16 * 3600 + 12.71 }],
      ]);
  });
});

describe('motion', () => {
  test('VTG in its old form of four bare numbers', () => {
    expect(say('GPVTG,054.7,034.4,005.5,010.2')).toEqual([
      { kind: 'motion', sog: 5.5 * KNOT, cog: 54.7, cogMagnetic: 34.4 },
    ]);
  });

  test('VTG takes km/h when there are no knots', () => {
    expect(only(say('GPVTG,220.86,T,,M,,N,4.724,K,A'), 'motion')?.sog).toBeCloseTo(4.724 / 3.6, 12);
  });

  test('VTG without a measured fix says nothing', () => {
    for (const mode of ['N', 'E', 'S', 'M']) expect(say(`GPVTG,90.0,T,,M,3.0,N,5.6,K,${mode}`)).toEqual([]);
  });

  test('a value without its letter, or with another, is malformed', () => {
    for (const body of [
      'GPVTG,90.0,,,M,3.0,N,5.6,K,A',
      'GPVTG,90.0,M,,M,3.0,N,5.6,K,A',
      'GPVTG,90.0,T,,M,3.0,K,5.6,N,A',
      'GPVTG,90.0,T,,M,3.0',
    ])
      expect([body, refuse(body).reason]).toEqual([body, 'malformed']);
  });
});

describe('wind', () => {
  test('MWV T is off the bow, not off north', () => {
    expect(say('WIMWV,350,T,10,M,A')).toEqual([{ kind: 'wind-theoretical', angle: -10, speed: 10 }]);
    expect(say('WIMWV,350,R,10,M,A')).toEqual([{ kind: 'wind-apparent', angle: -10, speed: 10 }]);
    expect(say('WIMWV,180,R,10,M,A')).toEqual([{ kind: 'wind-apparent', angle: 180, speed: 10 }]);
  });

  test.each([
    ['K', 36, 10],
    ['M', 10, 10],
    ['N', 10, 5.144444],
    ['S', 10, 4.4704],
  ])('unit %s: %f is %f m/s', (unit, sent, speed) => {
    expect(only(say(`WIMWV,45,R,${sent},${unit},A`), 'wind-apparent')?.speed).toBeCloseTo(speed, 6);
  });

  test('status V, or blank, is no wind', () => {
    expect(say('WIMWV,45,R,10,M,V')).toEqual([]);
    expect(say('WIMWV,45,R,10,M,')).toEqual([]);
    expect(say('WIMWV,,T,,N,V')).toEqual([]);
  });

  test('unit or reference missing or unknown is malformed, never guessed', () => {
    for (const body of [
      'WIMWV,45,R,10,,A',
      'WIMWV,45,,10,M,A',
      'WIMWV,45,R,10,X,A',
      'WIMWV,45,X,10,M,A',
      'WIMWV,45,R,10,M,X',
    ])
      expect([body, refuse(body).reason]).toEqual([body, 'malformed']);
  });

  test('VWR and VWT: left is negative; knots, else m/s, else km/h', () => {
    expect(say('IIVWR,092,L,,,5.0,M,,')).toEqual([{ kind: 'wind-apparent', angle: -92, speed: 5 }]);
    expect(say('IIVWT,092,R,,,,,36,K')).toEqual([{ kind: 'wind-theoretical', angle: 92, speed: 10 }]);
    expect(only(say('IIVWR,180,L,10,N,5,M,18,K'), 'wind-apparent')).toEqual({
      kind: 'wind-apparent',
      angle: 180,
      speed: 10 * KNOT,
    });
    expect(only(say('IIVWR,000,L,10,N,,,,'), 'wind-apparent')?.angle).toBe(0);
    expect(refuse('IIVWR,092,,03.0,N,,,,').reason).toBe('malformed');
  });

  test('MWD takes the knots, the finer, and m/s when there are none', () => {
    expect(only(say('WIMWD,328.2,T,326.8,M,11.2,N,5.8,M'), 'wind-ground')).toEqual({
      kind: 'wind-ground',
      from: 328.2,
      fromMagnetic: 326.8,
      speed: 11.2 * KNOT,
    });
    expect(say('WIMWD,,T,326.8,M,,N,5.8,M')).toEqual([
      { kind: 'wind-ground', fromMagnetic: 326.8, speed: 5.8 },
    ]);
  });
});

describe('depth', () => {
  test('DPT offset with a plus sign; an offset that cannot be read is dropped and the depth kept', () => {
    expect(say('IIDPT,008.1,+0.7,')).toEqual([
      { kind: 'depth', depth: 8.1, reference: 'transducer', offset: 0.7 },
    ]);
    expect(say('IIDPT,007.8,-1.0,')).toEqual([
      { kind: 'depth', depth: 7.8, reference: 'transducer', offset: -1 },
    ]);
    for (const offset of ['-1.-1', 'x', ''])
      expect(say(`IIDPT,007.8,${offset},`)).toEqual([{ kind: 'depth', depth: 7.8, reference: 'transducer' }]);
  });

  test('DBT, DBK and DBS: metres, else feet, else fathoms', () => {
    expect(say('SDDBT,18.0,f,5.4,M,3.0,F')).toEqual([{ kind: 'depth', depth: 5.4, reference: 'transducer' }]);
    expect(say('SDDBK,10.0,f,,M,,F')).toEqual([{ kind: 'depth', depth: 10 * FOOT, reference: 'keel' }]);
    expect(say('SDDBS,,,,,2.5,F')).toEqual([{ kind: 'depth', depth: 2.5 * FATHOM, reference: 'surface' }]);
    expect(say('SDDBS,,,0187.5,M,,')).toEqual([{ kind: 'depth', depth: 187.5, reference: 'surface' }]);
    expect(refuse('SDDBT,18.0,M,5.4,M,3.0,F').reason).toBe('malformed');
    expect(refuse('SDDBT,18.0,,,,,').reason).toBe('malformed');
  });
});

describe('heading', () => {
  test('HDG: deviation is applied when given, variation is told by itself, east positive', () => {
    const [heading, variation] = say('HCHDG,98.3,0.1,E,12.6,W');
    expect(heading).toMatchObject({ kind: 'heading-magnetic', deviationApplied: true });
    expect((heading as { heading: number }).heading).toBeCloseTo(98.4, 9);
    expect(variation).toEqual({ kind: 'variation', variation: -12.6 });
    expect(only(say('HCHDG,1.0,3.0,W,2.0,E'), 'heading-magnetic')?.heading).toBe(358);
    expect(say('SDHDG,229.8,,,1.3,E')).toEqual([
      { kind: 'heading-magnetic', heading: 229.8, deviationApplied: false },
      { kind: 'variation', variation: 1.3 },
    ]);
  });

  test('HDG: a value without its side is malformed, a side without value is unknown', () => {
    expect(refuse('HCHDG,98.3,0.1,,12.6,W').reason).toBe('malformed');
    expect(refuse('HCHDG,98.3,0.1,E,12.6,').reason).toBe('malformed');
    expect(say('IIHDG,70.6,,E,,W')).toEqual([
      { kind: 'heading-magnetic', heading: 70.6, deviationApplied: false },
    ]);
  });

  test('THS: A and E are headings; V, S, M and blank are none', () => {
    expect(say('INTHS,304.5,A')).toEqual([{ kind: 'heading', heading: 304.5 }]);
    expect(say('INTHS,304.5,E')).toEqual([{ kind: 'heading', heading: 304.5 }]);
    for (const mode of ['V', 'S', 'M', '']) expect(say(`INTHS,304.5,${mode}`)).toEqual([]);
  });

  test('VHW gives true and magnetic heading and the speed, knots before km/h', () => {
    expect(say('VWVHW,45.0,T,43.0,M,3.5,N,6.4,K')).toEqual([
      { kind: 'heading', heading: 45 },
      { kind: 'heading-magnetic', heading: 43, deviationApplied: true },
      { kind: 'water-speed', ahead: 3.5 * KNOT },
    ]);
    expect(say('VWVHW,,,,,,,36,K')).toEqual([{ kind: 'water-speed', ahead: 10 }]);
  });

  test('ROT is degrees a second to starboard, and nothing with status V', () => {
    expect(only(say('HEROT,-12,A'), 'rate-of-turn')?.rate).toBeCloseTo(-0.2, 12);
    expect(say('HEROT,-12,V')).toEqual([]);
  });
});

describe('water', () => {
  test('VBW: each part has its own status', () => {
    const water = { kind: 'water-speed', ahead: 12.3 * KNOT, athwart: -0.07 * KNOT };
    const ground = { kind: 'ground-speed', ahead: 11.78 * KNOT, athwart: 0.12 * KNOT };
    expect(say('GPVBW,12.3,-0.07,A,11.78,0.12,A')).toEqual([water, ground]);
    expect(say('GPVBW,12.3,-0.07,V,11.78,0.12,A')).toEqual([ground]);
    expect(say('GPVBW,12.3,-0.07,A,11.78,0.12,V,1.0,A')).toEqual([water]);
    expect(say('GPVBW,12.3,,A,,,V,,V,,V')).toEqual([{ kind: 'water-speed', ahead: 12.3 * KNOT }]);
  });

  test('VDR: set and drift', () => {
    expect(say('IIVDR,10.1,T,12.3,M,1.2,N')).toEqual([
      { kind: 'stream', set: 10.1, setMagnetic: 12.3, drift: 1.2 * KNOT },
    ]);
    expect(say('IIVDR,,,,,0.0,N')).toEqual([{ kind: 'stream', drift: 0 }]);
  });

  test('VLW is metres', () => {
    expect(say('IIVLW,100,N,0.5,N')).toEqual([{ kind: 'distance-log', total: 185_200, sinceReset: 926 }]);
    expect(say('SDVLW,,N,545.6,N,1109.4,N,393.6,N')).toEqual([
      { kind: 'distance-log', sinceReset: 545.6 * 1852 },
    ]);
  });
});

describe('transducers and satellites', () => {
  test('XDR quads with blank values are told as unknown; part of a quad is malformed', () => {
    expect(say('IIXDR,C,,C,AIRTEMP,A,-1.0,D,HEEL')).toEqual([
      { kind: 'transducer', type: 'C', unit: 'C', name: 'AIRTEMP' },
      { kind: 'transducer', type: 'A', value: -1, unit: 'D', name: 'HEEL' },
    ]);
    expect(say('IIXDR,A,-1.0,D,HEEL,')).toHaveLength(1);
    expect(say('IIXDR,,,,,A,-1.0,D,HEEL')).toHaveLength(1);
    expect(say('IIXDR,,,,HEEL')).toEqual([{ kind: 'transducer', type: '', unit: '', name: 'HEEL' }]);
    expect(say('IIXDR,,5,,')).toEqual([{ kind: 'transducer', type: '', value: 5, unit: '', name: '' }]);
    expect(refuse('IIXDR,A,-1.0,D,HEEL,A').reason).toBe('malformed');
    expect(refuse('IIXDR,A,1e3,D,HEEL').reason).toBe('malformed');
  });

  test('GSA: no fix is one dimension; the system of 4.10 is no fault', () => {
    expect(say('GPGSA,A,1,,,,,,,,,,,,,,,')).toEqual([{ kind: 'dilution', dimensions: 1 }]);
    expect(say('GNGSA,A,3,15,17,,,,,,,,,,,1.8,0.9,1.5,1')).toEqual([
      { kind: 'dilution', hdop: 0.9, dimensions: 3 },
    ]);
    expect(refuse('GPGSA,A,4,,,,,,,,,,,,,,,').reason).toBe('malformed');
  });

  test('GST: one deviation alone is told alone', () => {
    expect(say('GPGST,182141.000,,,,,0.9,,')).toEqual([{ kind: 'accuracy', latSigma: 0.9 }]);
    expect(say('GPGST,182141.000,,,,,,0.5,')).toEqual([{ kind: 'accuracy', lonSigma: 0.5 }]);
  });

  test('GSV: the signal of 4.10 is no satellite', () => {
    expect(say('GPGSV,1,1,01,22,42,067,42,1')).toEqual([{ kind: 'satellites-in-view', count: 1 }]);
    expect(refuse('GPGSV,1,1,01,22,4x,067,42').reason).toBe('malformed');
  });
});
