import type { Versions } from '../../shared/stamp.ts';

/** How two version vectors stand to each other, read as "a is ... b". */
export type Standing = 'same' | 'newer' | 'older' | 'apart';

/** True when `a` has seen everything that `b` has. */
function covers(a: Versions, b: Versions): boolean {
  return Object.entries(b).every(([device, count]) => (a[device] ?? 0) >= count);
}

/**
 * Compares by what each has seen; clocks do not enter.
 *
 * Source: Parker et al. 1983, doi 10.1109/TSE.1983.236733 (version vectors).
 */
export function compareVersions(a: Versions, b: Versions): Standing {
  const aCovers = covers(a, b);
  const bCovers = covers(b, a);
  if (aCovers && bCovers) return 'same';
  if (aCovers) return 'newer';
  return bCovers ? 'older' : 'apart';
}

/** The least vector that has seen everything any of these has. */
export function joinVersions(all: readonly Versions[]): Versions {
  const joined: Record<string, number> = {};
  for (const versions of all) {
    for (const [device, count] of Object.entries(versions)) {
      joined[device] = Math.max(joined[device] ?? 0, count);
    }
  }
  return joined;
}
