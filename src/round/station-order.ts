import { ascending, group } from 'd3-array';
import type { Blade } from '../../shared/blade.ts';
import type { Grid, Station } from '../../shared/grid.ts';

/** How a maker goes over the stations; a left-handed maker may begin each row on the right. */
export interface Going extends Pick<Grid, 'order' | 'bladeByBlade' | 'sameSideFirst'> {
  readonly beginOn: 'left' | 'right';
}

/** Row by row, turning, A whole and then B. Common practice, no source. */
export const USUAL_GOING: Omit<Going, 'beginOn'> = {
  order: 'rows-turning',
  bladeByBlade: true,
  sameSideFirst: false,
};

type Line = readonly Station[];

/** The centre line first, then each pair of columns outwards, the beginning side of a pair before the other. */
const outwards = (a: number, b: number) => ascending(Math.abs(a), Math.abs(b)) || ascending(a, b);

/** Stations of one blade as rows or columns, each in its direction of going. `turn` is -1 where right comes first. */
function lines(stations: Line, order: Going['order'], turn: number): Line[] {
  const across = (station: Station) => station.across * turn;
  const along = (station: Station) => station.fromTipMm;
  const byRows = order.startsWith('rows');
  const [line, step] = byRows ? [along, across] : [across, along];
  const groups = [...group(stations, line)].sort(([a], [b]) => (byRows ? ascending(a, b) : outwards(a, b)));
  return groups.map(([, members], i) => {
    const forth = [...members].sort((a, b) => ascending(step(a), step(b)));
    return order.endsWith('-turning') && i % 2 === 1 ? forth.reverse() : forth;
  });
}

/** Lines of A and B taken in turn: first of A, first of B, second of A ... */
function alternate(a: readonly Line[], b: readonly Line[]): Line[] {
  const length = Math.max(a.length, b.length);
  return Array.from({ length }, (_, i) => [...(a[i] ?? []), ...(b[i] ?? [])]);
}

/**
 * Puts stations into the order in which they are read. Rows go from the tip to the thread; columns begin with the
 * centre line and go outwards; `-turning` reverses every second line. With `sameSideFirst` B is gone over from the other
 * side of its own view, so that both blades begin on the same side of the reed.
 *
 * @returns A fresh array with the same stations.
 */
export function inOrder(stations: readonly Station[], going: Going): Station[] {
  const { order, bladeByBlade, sameSideFirst, beginOn } = going;
  const on = (blade: Blade) => stations.filter((station) => station.blade === blade);
  if (order === 'as-listed') return bladeByBlade ? [...on('A'), ...on('B')] : [...stations];
  const first = beginOn === 'left' ? 1 : -1;
  const a = lines(on('A'), order, first);
  const b = lines(on('B'), order, sameSideFirst ? -first : first);
  return (bladeByBlade ? [...a, ...b] : alternate(a, b)).flat();
}
