import { describe, expect, test } from 'vitest';
import * as watch from '../../shared/watch/words.ts';
import * as weigh from '../../shared/weigh/words.ts';
import { inUnits } from '../../web/units.ts';

const feet = (text: string) => inUnits(text, { length: 'ft', speed: 'm/s' });

describe('the boat’s sentences in other units', () => {
  test.each([
    ['31 m to the anchor of 38 m allowed', '102 ft to the anchor of 125 ft allowed'],
    ['46.3 m from roller to mark, 42.0 m allowed', '151.9 ft from roller to mark, 137.8 ft allowed'],
    ['moved 9 ± 3 m to 310° in 12 min', 'moved 30 ± 10 ft to 310° in 12 min'],
    ['3 to 5 m', '10 to 16 ft'],
    ['Wind 27.0 kn, over the limit of 25.0 kn.', 'Wind 13.9 m/s, over the limit of 12.9 m/s.'],
    ['wind 14 kn from 230°', 'wind 7.2 m/s from 230°'],
    ['−1.2 m', '−3.9 ft'],
    [
      '10 mm chain, 5 min, 3 months, 7.2 m/s, 12 m² windage',
      '10 mm chain, 5 min, 3 months, 7.2 m/s, 12 m² windage',
    ],
  ])('%s → %s', (text, shown) => expect(feet(text)).toBe(shown));

  test('in the units of the boat nothing is touched', () => {
    const text = 'moved 9 ± 3 m at 0.5 kn';
    expect(inUnits(text, { length: 'm', speed: 'kn' })).toBe(text);
  });

  test('no quantity of the catalogues is left behind', () => {
    const texts = [
      watch.circleTold(42),
      watch.circleComputed({ radius: 42.5, cable: 38, h: 7.1, reach: 35.2, mark: 3, position: 5, margin: 6 }),
      watch.outsideCircle(46.3, 42, 4),
      watch.outsideCircleUnseen(42),
      watch.shoal(1.9, 2.5, true),
      watch.deep(22, 20, false),
      watch.depthUnseen(true, 2.5),
      watch.windSpeed(13.9, 12.86, true),
      watch.windSpeedUnseen(12.86),
      watch.dragged({ value: 9, sigma: 3, towards: 310, minutes: 12, distance: 40.2, reach: 36, wind: 9 }),
      watch.brokenLoose(6.2, 40, 0.6, 44),
      weigh.overrun(3.2),
      weigh.adrift({ speed: 0.6, toward: 310, shoal: 40, edge: 12 } as never, true),
    ];
    for (const text of texts) {
      expect(text).toMatch(/\d (m|kn)\b/);
      expect(feet(text)).not.toMatch(/\d[ \u00a0](m|kn)(?![\p{L}/])/u);
    }
  });
});
