import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkCertificate } from '../../../server/check/certificate.ts';
import { type ClockFacts, checkClock } from '../../../server/check/clock.ts';
import type { Finding } from '../../../server/check/finding.ts';
import { openTls } from '../../../server/tls/keep.ts';
import { emptyFolder } from '../daemonAtHand.ts';

const NOW = Date.UTC(2026, 10, 25) / 1000;
const DAY = 86_400_000;
const states = (findings: Finding[]) => findings.map(({ state }) => state);

describe('the clock', () => {
  test.each<[string, ClockFacts, Finding['state'][], string]>([
    ['right, alone', { now: NOW }, ['good'], 'no receiver has told the time'],
    ['right, as told', { now: NOW, offset: 3 }, ['good'], 'as the receiver says'],
    ['of 1970', { now: 100 }, ['fault'], '1970-01-01'],
    ['far ahead', { now: NOW + 80 * 365 * 86_400 }, ['fault'], '2106'],
    ['behind', { now: NOW, offset: 7200 }, ['fault'], '2 h behind'],
    ['ahead', { now: NOW, offset: -30 }, ['fault'], '30 s ahead'],
    ['behind the log', { now: NOW, recorded: NOW + 3600 }, ['good', 'fault'], 'the log ends at'],
    ['with the log behind it', { now: NOW, recorded: NOW - 3600, hasBattery: true }, ['good'], ''],
    ['without battery', { now: NOW, hasBattery: false }, ['good', 'look'], 'while it is off'],
  ])('%s', (_, facts, expected, text) => {
    const findings = checkClock(facts);
    expect(states(findings)).toEqual(expected);
    expect(findings.map((finding) => finding.text).join('\n')).toContain(text);
  });
});

describe('the certificate', () => {
  const open = async (data: string, now: number) =>
    openTls({
      data,
      boat: 'Test',
      names: ['hawse.local'],
      addresses: () => ['192.168.4.2'],
      now: () => now,
      note: () => {},
    });

  test('one that hawse made is told with its end and its names; later it is renewed, at last the authority ends', async () => {
    const data = emptyFolder();
    const made = Date.UTC(2026, 10, 25);
    await open(data, made);
    const [fresh] = checkCertificate(data, true, made + DAY);
    expect(fresh!.state).toBe('good');
    expect(fresh!.text).toMatch(/valid until 20\d\d-\d\d-\d\d.*hawse\.local.*192\.168\.4\.2/);
    expect(states(checkCertificate(data, true, made + 3 * 365 * DAY))).toEqual(['look']);
    expect(states(checkCertificate(data, true, made + 100 * 365 * DAY))).toEqual(['fault']);
    expect(states(checkCertificate(data, true, 0))).toContain('fault');
  });

  test('none yet, switched off, damaged', () => {
    const data = emptyFolder();
    expect(states(checkCertificate(data, true, NOW * 1000))).toEqual(['good']);
    expect(states(checkCertificate(data, false, NOW * 1000))).toEqual(['look']);
    mkdirSync(join(data, 'tls'));
    for (const name of ['leaf.pem', 'authority.pem']) writeFileSync(join(data, 'tls', name), 'damaged');
    expect(states(checkCertificate(data, true, NOW * 1000))).toEqual(['look']);
  });
});
