import { describe, expect, test } from 'vitest';
import { divergence, lyingTo } from '../../../shared/water/lie.ts';

describe('wind and stream', () => {
  test('divergence is the turn from where the wind pushes to where the stream pushes', () => {
    expect(divergence(180, 0)).toBe(0);
    expect(divergence(180, 40)).toBe(40);
    expect(divergence(180, 320)).toBe(-40);
    expect(divergence(0, 0)).toBe(180);
    expect(divergence(350, 180)).toBe(10);
  });

  test('which of them she lies to', () => {
    // Wind from north, stream setting west: she lies between north and east.
    expect(lyingTo(2, 0, 270)).toBe('wind');
    expect(lyingTo(355, 0, 270)).toBe('wind');
    expect(lyingTo(88, 0, 270)).toBe('stream');
    expect(lyingTo(45, 0, 270)).toBe('both');
    expect(lyingTo(200, 0, 270)).toBeUndefined();
    // Both push the same way.
    expect(lyingTo(10, 0, 200)).toBe('both');
    expect(lyingTo(120, 0, 200)).toBeUndefined();
    // Wind against stream: across both, to either side.
    expect(lyingTo(5, 0, 0)).toBe('wind');
    expect(lyingTo(185, 0, 0)).toBe('stream');
    expect(lyingTo(90, 0, 0)).toBe('both');
    expect(lyingTo(270, 0, 0)).toBe('both');
    expect(lyingTo(270, 0, 5)).toBe('both');
  });
});
