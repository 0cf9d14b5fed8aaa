/** Solves the symmetric positive definite system A·x = b (rows of A); undefined when it is singular. Gauss with pivots. */
export function solve(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
): number[] | undefined {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i;
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    const pivot = rows[k]![k]!;
    if (Math.abs(pivot) < 1e-12) return undefined;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const share = rows[i]![k]! / pivot;
      for (let j = k; j <= n; j++) rows[i]![j]! -= share * rows[k]![j]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

/** Sums of a linear fit: XᵀX and Xᵀy. */
export interface Sums {
  square: number[][];
  right: number[];
}

export const noSums = (n: number): Sums => ({
  square: Array.from({ length: n }, () => new Array<number>(n).fill(0)),
  right: new Array<number>(n).fill(0),
});

export function addRow({ square, right }: Sums, row: readonly number[], y: number, weight = 1): void {
  for (let i = 0; i < row.length; i++) {
    right[i]! += weight * row[i]! * y;
    for (let j = 0; j < row.length; j++) square[i]![j]! += weight * row[i]! * row[j]!;
  }
}

export function addSums(to: Sums, from: Sums, weight = 1): void {
  for (let i = 0; i < to.right.length; i++) {
    to.right[i]! += weight * from.right[i]!;
    for (let j = 0; j < to.right.length; j++) to.square[i]![j]! += weight * from.square[i]![j]!;
  }
}
