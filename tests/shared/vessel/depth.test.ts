import { describe, expect, test } from 'vitest';
import { depthOf } from '../../../shared/vessel/depth.ts';
import { accepted, only } from '../sentences/read.ts';
import { boat, Rig, START, say } from './help.ts';

const told = (belowWaterline: number) => ({ ...boat, sounder: { aftOfRoller: 4, belowWaterline } });
const sounded = (sentence: string) => only(accepted(sentence).observations, 'depth')!;

describe('what a depth refers to', () => {
  /** Furuno DS-60 and gpsd NMEA.adoc (reference §2) [F]: 5.3 with +0.4 is 5.7 below the surface; 7.8 with −1.0 is 6.8 below the keel. */
  test('DPT with offset to the waterline', () => {
    const depth = depthOf(sounded('$SDDPT,5.3,0.4,*79'), boat);
    expect(depth.surface).toBeCloseTo(5.7, 9);
    expect(depth.keel).toBeCloseTo(5.7 - boat.draft, 9);
    expect(depth.measured).toBe(5.3);
  });

  test('DPT with offset to the keel', () => {
    const depth = depthOf(sounded('$IIDPT,007.8,-1.0,*4F'), boat);
    expect(depth.keel).toBeCloseTo(6.8, 9);
    expect(depth.surface).toBeCloseTo(6.8 + boat.draft, 9);
  });

  test('DPT with offset 0 or none tells neither, and says so by their absence', () => {
    const zero = { kind: 'depth', depth: 4, reference: 'transducer', offset: 0 } as const;
    expect(depthOf(zero, boat)).toEqual({ measured: 4 });
    expect(depthOf({ kind: 'depth', depth: 4, reference: 'transducer' }, boat)).toEqual({ measured: 4 });
  });

  test('what the crew has configured wins over the offset in the instrument', () => {
    expect(depthOf(sounded('$SDDPT,5.3,0.4,*79'), told(0.6)).surface).toBeCloseTo(5.9, 9);
    expect(depthOf(sounded('$IIDPT,007.8,-1.0,*4F'), told(0.6)).surface).toBeCloseTo(8.4, 9);
  });

  /** GO, NO in reference §2 [F]: DBS 187.5 m below the surface, DBK 3.7 m below the keel, DBT 2.4 m below the transducer. */
  test('DBS, DBK and DBT say it themselves; the configured transducer changes only DBT', () => {
    expect(depthOf(sounded('$SDDBS,,,0187.5,M,,*1A'), told(0.6))).toMatchObject({
      measured: 187.5,
      surface: 187.5,
    });
    expect(depthOf(sounded('$SDDBK,12.3,f,3.7,M,2.0,F*2F'), told(0.6))).toMatchObject({
      keel: 3.7,
      surface: 3.7 + boat.draft,
    });
    expect(depthOf(sounded('$SDDBT,7.8,f,2.4,M,1.3,F*0D'), boat)).toEqual({ measured: 2.4 });
    expect(depthOf(sounded('$SDDBT,7.8,f,2.4,M,1.3,F*0D'), told(0.6)).surface).toBeCloseTo(3, 9);
  });
});

test('a sounder that sends 0 has lost the bottom: the last depth ages', () => {
  const rig = new Rig();
  rig.hear(START, say('SDDPT', { kind: 'depth', depth: 6, reference: 'transducer' }));
  for (let i = 1; i < 15; i++)
    rig.hear(START + i, say('SDDPT', { kind: 'depth', depth: 0, reference: 'transducer' }));
  expect(rig.view().depth).toBeUndefined();
  expect(rig.view().ages.depth).toBe(14);
});
