import { describe, expect, test } from 'vitest';
import { CHAINS, chainOfSize } from '../../../shared/cable/chain.ts';
import { submergedWeight } from '../../../shared/cable/nature.ts';

describe('chain table', () => {
  test.each([
    // size mm, kg/m, breaking load of the weakest grade kN, source chains.ie [F]; weight in water N/m [C].
    [6, 0.8, 18, 6.8209],
    [7, 1.1, 25, 9.3788],
    [8, 1.4, 32, 11.9366],
    [10, 2.25, 50, 19.1839],
    [12, 3.1, 71, 26.4311],
    [13, 3.8, 80, 32.3994],
  ])('%d mm', (size, mass, breaking, weight) => {
    const chain = chainOfSize(size)!;
    expect(chain.massPerMetre).toBe(mass);
    expect(chain.breakingLoad).toBe(breaking * 1000);
    // Working load is a quarter of it (coxeng.co.uk [F]).
    expect(chain.workingLoad).toBe(breaking * 250);
    expect(submergedWeight(chain.massPerMetre)).toBeCloseTo(weight, 4);
  });

  test('10 mm DIN 766 and 14 mm weigh what the reference computed', () => {
    expect(submergedWeight(2.2)).toBeCloseTo(18.7576, 4);
    expect(submergedWeight(4.4)).toBeCloseTo(37.5151, 4);
  });

  test.each([
    // chains.ie [F]: mm, standard, pitch, kg/m, breaking load of grade 40, kN (12 mm: coxeng.co.uk).
    [6, 'DIN 766', 18.5, 0.8, 20],
    [7, 'DIN 766', 22, 1.1, 30],
    [8, 'DIN 766', 24, 1.4, 40],
    [10, 'ISO 4565', 30, 2.25, 63],
    [10, 'DIN 766', 28, 2.2, 63],
    [12, 'ISO 4565', 36, 3.1, 90],
    [14, 'DIN 766', 41, 4.25, 121],
  ])('%d mm %s, grade 40', (size, standard, pitch, massPerMetre, breaking) => {
    const row = CHAINS.find(
      (chain) => chain.size === size && chain.standard === standard && chain.grade === 40,
    );
    expect(row).toMatchObject({ pitch, massPerMetre, breakingLoad: breaking * 1000 });
  });

  test('8 mm DIN 766: working 800 kg, breaking 3200 kg (a forum quoting the standard [F]), within 2 %', () => {
    const chain = chainOfSize(8)!;
    expect(chain.workingLoad / (800 * 9.80665)).toBeCloseTo(1, 1);
    expect(chain.breakingLoad / (3200 * 9.80665)).toBeCloseTo(1, 1);
  });

  test.each([
    // G43, 1st-chainsupply.com [F]: inches, working load kN [C from lbf]; kg/m [M].
    [1 / 4, 11.565, 1.04],
    [5 / 16, 17.348, 1.64],
    [3 / 8, 24.02, 2.31],
    [1 / 2, 40.924, 3.9],
  ])('G43 of %d inch', (inches, working, mass) => {
    const chain = CHAINS.find(({ standard, size }) => standard === 'US G43' && size === inches * 25.4)!;
    expect(chain.workingLoad / 1000).toBeCloseTo(working, 2);
    expect(chain.breakingLoad / chain.workingLoad).toBeCloseTo(3, 9);
    expect(Math.abs(chain.massPerMetre - mass)).toBeLessThan(0.04);
  });

  test.each(
    // Mass from the geometry of the link, b = 1.2 d (uulifting.com widths [F]) [C].
    [
      [6, 18.5, 0.7687],
      [7, 22, 1.0379],
      [8, 24, 1.3826],
      [10, 30, 2.1602],
      [12, 36, 3.1108],
      [13, 36, 3.7814],
      [14, 41, 4.2784],
    ],
  )('the table’s mass of %d mm is that of its links, within 7 %', (d, pitch, computed) => {
    const width = 1.2 * d;
    const links =
      (((Math.PI * d * d) / 4) * (2 * (pitch - width) + Math.PI * (width + d)) * 7850) / pitch / 1e6;
    expect(links).toBeCloseTo(computed, 3);
    expect(Math.abs(chainOfSize(d)!.massPerMetre / links - 1)).toBeLessThan(0.07);
  });

  test('a size that is not in the table has no chain; every row is whole', () => {
    expect(chainOfSize(9)).toBeUndefined();
    expect(chainOfSize(Number.NaN)).toBeUndefined();
    for (const chain of CHAINS) {
      expect(chain.workingLoad).toBeLessThan(chain.breakingLoad / 2.9);
      expect(chain.source).toMatch(/^F: /);
    }
  });

  test('nylon is nearly weightless in the sea', () => {
    expect(submergedWeight(0.12, 'nylon') / (0.12 * 9.80665)).toBeCloseTo(0.1009, 3);
  });
});
