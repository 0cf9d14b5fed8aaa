/** Least-squares slope of `y` over `x`; NaN with fewer than two points. */
export function slope(points: readonly { x: number; y: number }[]): number {
  const n = points.length;
  const mean = (of: (point: { x: number; y: number }) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / n;
  const x = mean((point) => point.x);
  const y = mean((point) => point.y);
  const over = points.reduce((sum, point) => sum + (point.x - x) ** 2, 0);
  return points.reduce((sum, point) => sum + (point.x - x) * (point.y - y), 0) / over;
}
