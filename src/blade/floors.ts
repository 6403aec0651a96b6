import type { FloorTable } from '../../shared/style.ts';

interface Span {
  readonly low: number;
  readonly high: number;
  readonly share: number;
}

function spanOf(values: readonly number[], at: number): Span {
  const next = values.findIndex((value) => value >= at);
  if (next === 0) return { low: 0, high: 0, share: 0 };
  if (next === -1) return { low: values.length - 1, high: values.length - 1, share: 0 };
  const share = (at - values[next - 1]!) / (values[next]! - values[next - 1]!);
  return { low: next - 1, high: next, share };
}

/** The least thickness at a place, mm, or undefined where the table sets none. */
export function floorAt(
  { fromTipMm, across, floorMm }: FloorTable,
  y: number,
  u: number,
): number | undefined {
  const row = spanOf(fromTipMm, y);
  const column = spanOf(across, Math.abs(u));
  let floor = 0;
  for (const [i, rowShare] of [[row.low, 1 - row.share] as const, [row.high, row.share] as const]) {
    for (const [j, columnShare] of [
      [column.low, 1 - column.share] as const,
      [column.high, column.share] as const,
    ]) {
      const corner = floorMm[i]![j]!;
      if (corner === null) return undefined;
      floor += rowShare * columnShare * corner;
    }
  }
  return floor;
}
