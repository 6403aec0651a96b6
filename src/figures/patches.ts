import type { Blade } from '../../shared/blade.ts';
import type { Estimate, PassGeometry, ReedModel } from '../surface/reed-model.ts';
import { estimate } from './functional.ts';
import { largestPlace } from './measurable.ts';
import type { PassPair } from './pass-pair.ts';
import { meanRemovedOver } from './removed.ts';
import type { FigureMap } from './surface-map.ts';
import { COVERAGE } from '../words/format.ts';
import { shareOver, withUnread, type Unread } from './unread.ts';

/** A row of a map this near to one that was read is read, mm: half the step of a usual map. */
const READ_WITHIN_MM = 0.25;

/**
 * Places of a map between two measurable ones of the same column, where no row was read: the doubt alone parts them, so
 * that a patch is one across them.
 *
 * @param sure 1 where the value is measurable and above zero.
 * @param readMm Distances from the tip that were read.
 */
export function betweenRead(
  { ysMm, us, valuesMm }: FigureMap,
  sure: Uint8Array,
  readMm: readonly number[],
): Uint8Array {
  const between = new Uint8Array(sure.length);
  const isRead = ysMm.map((y) => readMm.some((read) => Math.abs(read - y) <= READ_WITHIN_MM));
  for (let column = 0; column < us.length; column++) {
    let last: number | undefined;
    for (let row = 0; row < ysMm.length; row++) {
      const at = row * us.length + column;
      if (sure[at] === 1) {
        for (let gap = (last ?? row) + 1; gap < row; gap++) between[gap * us.length + column] = 1;
        last = row;
      } else if (isRead[row] || !(valuesMm[at]! > 0)) last = undefined;
    }
  }
  return between;
}

/**
 * The places of a map's patches: measurable ones, what hangs together with them, and what lies between their rows.
 *
 * @param sure 1 where the value is measurable and above zero.
 * @param readMm Distances from the tip that were read.
 */
export function patchPlaces(map: FigureMap, sure: Uint8Array, readMm: readonly number[]): Uint8Array {
  const joined = joinedTo(map, sure);
  const between = betweenRead(map, joined, readMm);
  return joined.map((yes, i) => yes | between[i]!);
}

/**
 * Places that hang together with a measurable one, each told from none by itself alone: the patch lost cane, since cane
 * only leaves, though not each of its places is told over the whole map.
 */
function joinedTo({ valuesMm, uMm, us }: FigureMap, sure: Uint8Array): Uint8Array {
  const joined = sure.slice();
  const open = [...sure.keys()].filter((at) => sure[at] === 1);
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const next of neighbours(at, us.length, sure.length)) {
      if (joined[next] !== 0 || !(valuesMm[next]! > COVERAGE * uMm[next]!)) continue;
      joined[next] = 1;
      open.push(next);
    }
  }
  return joined;
}

/** One stretch of a blade from which cane was measurably taken. */
export interface Patch {
  readonly blade: Blade;
  /** Mean removal over it. */
  readonly mean: Estimate;
  readonly areaMm2: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** The largest of it, and where. */
  readonly most: ReturnType<typeof largestPlace>;
}

/** Smaller than this is a corner of a cell, not a patch, mm2. */
const LEAST_MM2 = 0.5;

/** The patches of a removal's map, the largest loss of cane first. */
export function patchesOf(
  model: ReedModel,
  pair: PassPair,
  blade: Blade,
  map: FigureMap,
  marked: Uint8Array,
  unread: Unread,
): Patch[] {
  const geometry = model.passes[pair.after]!;
  return joined(map, marked)
    .flatMap((cells) => patchOf(model, pair, blade, map, cells, geometry, unread) ?? [])
    .sort((a, b) => b.mean.valueMm * b.areaMm2 - a.mean.valueMm * a.areaMm2);
}

function patchOf(
  model: ReedModel,
  pair: PassPair,
  blade: Blade,
  map: FigureMap,
  cells: readonly number[],
  { halfWidthMm }: PassGeometry,
  unread: Unread,
): Patch | undefined {
  const { ysMm, us, valuesMm } = map;
  const cell = ((ysMm.at(-1)! - ysMm[0]!) / (ysMm.length - 1)) * ((us.at(-1)! - us[0]!) / (us.length - 1));
  const nodes = cells.map((at) => {
    const x = ysMm[Math.floor(at / us.length)]!;
    return { x, y: us[at % us.length]!, area: cell * halfWidthMm(x) };
  });
  const areaMm2 = nodes.reduce((sum, { area }) => sum + area, 0);
  const mean = areaMm2 < LEAST_MM2 ? undefined : meanRemovedOver(model, pair, blade, { nodes, areaMm2 });
  if (!mean) return undefined;
  const own = new Set(cells);
  const inside = valuesMm.map((value, at) => (own.has(at) ? value : -Infinity));
  return {
    blade,
    mean: withUnread(estimate(model, mean), shareOver({ nodes, areaMm2 }, unread)),
    areaMm2,
    fromMm: nodes[0]!.x,
    toMm: nodes.at(-1)!.x,
    most: largestPlace({ ...map, valuesMm: inside }),
  };
}

/** Marked places that touch along or across, each group in the order of the map. */
function joined({ us }: FigureMap, marked: Uint8Array): number[][] {
  const seen = new Uint8Array(marked.length);
  const groups: number[][] = [];
  for (let start = 0; start < marked.length; start++) {
    if (marked[start] !== 1 || seen[start] === 1) continue;
    const group: number[] = [];
    const open = [start];
    seen[start] = 1;
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      group.push(at);
      for (const next of neighbours(at, us.length, marked.length)) {
        if (marked[next] !== 1 || seen[next] === 1) continue;
        seen[next] = 1;
        open.push(next);
      }
    }
    groups.push(group.sort((a, b) => a - b));
  }
  return groups;
}

function neighbours(at: number, columns: number, count: number): number[] {
  const column = at % columns;
  return [
    ...(column > 0 ? [at - 1] : []),
    ...(column < columns - 1 ? [at + 1] : []),
    ...(at >= columns ? [at - columns] : []),
    ...(at + columns < count ? [at + columns] : []),
  ];
}
