/** Normal equations of a least-squares fit, gathered row by row. */
export interface Normal {
  size: number;
  rows: number;
  matrix: number[][];
  right: number[];
  square: number;
}

export const createNormal = (size: number): Normal => ({
  size,
  rows: 0,
  matrix: Array.from({ length: size }, () => new Array<number>(size).fill(0)),
  right: new Array<number>(size).fill(0),
  square: 0,
});

export function addEquation(normal: Normal, row: readonly number[], value: number): void {
  for (let i = 0; i < normal.size; i++) {
    const line = normal.matrix[i]!;
    for (let j = 0; j < normal.size; j++) line[j]! += row[i]! * row[j]!;
    normal.right[i]! += row[i]! * value;
  }
  normal.square += value * value;
  normal.rows++;
}

/** Solution, inverse of the matrix, and sum of squared residuals; undefined when the matrix is singular. */
export function solveNormal(
  normal: Normal,
): { solution: number[]; inverse: number[][]; residual: number } | undefined {
  const inverse = invert(normal.matrix);
  if (!inverse) return undefined;
  const solution = inverse.map((line) => dot(line, normal.right));
  return { solution, inverse, residual: Math.max(0, normal.square - dot(solution, normal.right)) };
}

export const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, index) => sum + value * b[index]!, 0);

/** Quadratic form xᵀMx. */
export const quadratic = (matrix: readonly number[][], x: readonly number[]): number =>
  dot(
    matrix.map((line) => dot(line, x)),
    x,
  );

/** Gauss-Jordan with pivoting. */
function invert(matrix: readonly number[][]): number[][] | undefined {
  const size = matrix.length;
  const work = matrix.map((line, i) => [...line, ...line.map((_, j) => (i === j ? 1 : 0))]);
  const scale = Math.max(...matrix.map((line, i) => Math.abs(line[i]!)));
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let i = column + 1; i < size; i++) {
      if (Math.abs(work[i]![column]!) > Math.abs(work[pivot]![column]!)) pivot = i;
    }
    const line = work[pivot]!;
    const head = line[column]!;
    if (!(Math.abs(head) > 1e-12 * scale)) return undefined;
    work[pivot] = work[column]!;
    work[column] = line.map((value) => value / head);
    for (let i = 0; i < size; i++) {
      if (i === column) continue;
      const factor = work[i]![column]!;
      const from = work[column]!;
      work[i] = work[i]!.map((value, j) => value - factor * from[j]!);
    }
  }
  return work.map((line) => line.slice(size));
}
