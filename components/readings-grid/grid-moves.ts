import type { Cell, GridShape } from './grid-cells.ts';

type Press = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey'>;

const STEPS: Readonly<Record<string, readonly [rows: number, columns: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};
/** Keys that move the caret while a number is being typed. */
const CARET_KEYS = ['ArrowLeft', 'ArrowRight', 'Home', 'End'];

export function movesCaret({ key, ctrlKey, metaKey }: Press): boolean {
  return CARET_KEYS.includes(key) && !ctrlKey && !metaKey;
}

const clamp = (value: number, length: number) => Math.min(Math.max(value, 0), length - 1);

/**
 * Where a key leads, by the grid pattern of WAI-ARIA: arrows by one cell, Home and End along the row, with Ctrl to the
 * first and last cell of the blade. Undefined for other keys.
 */
export function moved({ blade, row, column }: Cell, shape: GridShape, press: Press): Cell | undefined {
  const [rows, columns] = [shape.fromTipMm.length, shape.across.length];
  const far = press.ctrlKey || press.metaKey;
  if (press.key === 'Home') return { blade, row: far ? 0 : row, column: 0 };
  if (press.key === 'End') return { blade, row: far ? rows - 1 : row, column: columns - 1 };
  const step = STEPS[press.key];
  if (!step || far) return undefined;
  return { blade, row: clamp(row + step[0], rows), column: clamp(column + step[1], columns) };
}

/** The station after this one: along the row, then the next row, then the other blade; the last stays. */
export function nextCell({ blade, row, column }: Cell, shape: GridShape): Cell {
  if (column + 1 < shape.across.length) return { blade, row, column: column + 1 };
  if (row + 1 < shape.fromTipMm.length) return { blade, row: row + 1, column: 0 };
  return blade === 'A' ? { blade: 'B', row: 0, column: 0 } : { blade, row, column };
}

/** The station before this one; the first stays. */
export function cellBefore({ blade, row, column }: Cell, shape: GridShape): Cell {
  const last = shape.across.length - 1;
  if (column > 0) return { blade, row, column: column - 1 };
  if (row > 0) return { blade, row: row - 1, column: last };
  return blade === 'B'
    ? { blade: 'A', row: shape.fromTipMm.length - 1, column: last }
    : { blade, row, column };
}
