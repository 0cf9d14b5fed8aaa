import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseConfig } from '../../../server/config/load.ts';
import { nameInstruments, toSettings } from '../../../server/config/settings.ts';

const least = 'boat: { length: 12, draft: 1.9, antenna: { aftOfRoller: 9 } }\n';
const faultsOf = (text: string): string => {
  try {
    parseConfig(text, 'hawse.yaml');
  } catch (error) {
    expect((error as Error).name).toBe('ConfigError');
    return (error as Error).message;
  }
  throw new Error('the config was taken');
};

describe('hawse.yaml', () => {
  test('the example is legal and means what it says', () => {
    const config = parseConfig(readFileSync('server/hawse.example.yaml', 'utf8'), 'example');
    const settings = toSettings(config);
    expect(settings.boat).toMatchObject({
      name: 'Sandpiper',
      length: 12.2,
      antenna: { aftOfRoller: 10.5, toStarboard: 0.6 },
    });
    expect(settings.cable.size).toBe(10);
    expect(settings.limits.windAbove).toBeCloseTo(25 * (1852 / 3600), 9);
    expect(settings.limits.windShift).toBe(60);
    expect(nameInstruments(config.instruments).map(({ id }) => id)).toEqual(['serial1', 'udp1', 'gateway']);
  });

  test('the least that is needed is small, the rest has defaults', () => {
    const settings = toSettings(parseConfig(least, 'x'));
    expect(settings.boat.beam).toBeCloseTo(4, 9);
    expect(settings.limits).toEqual({});
    expect(settings.checksumOptional).toEqual([]);
  });

  test('units: 42 ft, 25 kn, 7.5 t, 10 mm are legal; a wrong one is refused with what is allowed', () => {
    const text =
      'boat: { length: 42 ft, draft: 190 cm, displacement: 7.5 t, antenna: { aftOfRoller: 9 } }\nwatch: { windAbove: 25kn }\n';
    const config = parseConfig(text, 'x');
    expect(config.boat.length).toBeCloseTo(42 * 0.3048, 9);
    expect(config.boat.draft).toBeCloseTo(1.9, 9);
    expect(config.boat.displacement).toBe(7500);
    const fault = faultsOf('boat: { length: 12 kn, draft: 1.9, antenna: { aftOfRoller: 9 } }');
    expect(fault).toMatch(
      /^hawse\.yaml:1: boat\.length: "12 kn" is not a number of m from 4 to 40, or text with a unit: m, cm, mm, ft/,
    );
  });

  test('an unknown key is refused with its line, never dropped in silence', () => {
    expect(faultsOf(`${least}watch:\n  cirleRadius: 40\n`)).toContain(
      'hawse.yaml:3: watch.cirleRadius: unknown key "cirleRadius"',
    );
  });

  test('every fault is told, not only the first', () => {
    const told = faultsOf(
      'boat: { length: 900, draft: -1, antenna: { aftOfRoller: 9 } }\nserver: { port: 99999 }\n',
    ).split('\n');
    expect(told).toHaveLength(3);
  });

  test('what is missing, of the wrong kind or unknown is told with what is allowed there', () => {
    expect(faultsOf('boat: { length: 11, draft: 1.8 }')).toBe(
      'hawse.yaml:1: boat.antenna: missing; expected keys of its own: aftOfRoller, toStarboard',
    );
    expect(faultsOf(`${least}instruments: { tcp: a }\nserver: { port: many }`).split('\n')).toEqual([
      expect.stringMatching(/instruments: expected a list$/),
      expect.stringMatching(/server\.port: expected a number$/),
    ]);
    expect(faultsOf('boat: { length: 11, draft: 1.8, antenna: { aftOfRoler: 9, aftOfRoller: 9 } }')).toBe(
      'hawse.yaml:1: boat.antenna.aftOfRoler: unknown key "aftOfRoler"; allowed: aftOfRoller, toStarboard',
    );
  });

  test('a double key and broken YAML name their line', () => {
    expect(faultsOf(`${least}server: {}\nserver: {}\n`)).toContain('hawse.yaml:3: Map keys must be unique');
    expect(faultsOf('boat: [')).toContain('hawse.yaml:1:');
  });

  test('an instrument that is neither serial, udp nor tcp says what is allowed; prototype names do no harm', () => {
    expect(faultsOf(`${least}instruments: [{ usb: 3 }]\n`)).toContain(
      'expected {serial, baud}, {udp} or {tcp: "host:port"}',
    );
    expect(faultsOf('boat: { length: 12 constructor, draft: 1.9, antenna: { aftOfRoller: 9 } }')).toContain(
      'is not a number of m',
    );
  });

  test('a chain size that is not in the table asks for the mass', () => {
    expect(() => toSettings(parseConfig(`${least}cable: { size: 11 mm }\n`, 'x'))).toThrow(/massPerMetre/);
  });

  test('marks on the chain are in order from the anchor inwards', () => {
    const marked = (marks: string) =>
      toSettings(parseConfig(`${least}cable: { size: 10 mm, marks: ${marks} }\n`, 'x')).cable.marks;
    expect(marked('[{ at: 10, what: red }, { at: 50 ft, what: two yellow }]')).toEqual([
      { at: 10, what: 'red' },
      { at: 50 * 0.3048, what: 'two yellow' },
    ]);
    expect(() => marked('[{ at: 20, what: red }, { at: 10, what: blue }]')).toThrow(/in order/);
    expect(() => marked('[{ at: 20, what: "" }]')).toThrow(/cable\.marks\.0\.what/);
  });

  test('two inputs of one id are refused', () => {
    expect(() =>
      toSettings(parseConfig(`${least}instruments: [{ udp: 1, id: a }, { udp: 2, id: a }]\n`, 'x')),
    ).toThrow(/used twice/);
  });
});
