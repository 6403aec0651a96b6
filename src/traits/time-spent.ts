import { secondsOf, type Pass, type PassHead } from '../../shared/pass.ts';

/** Where a maker's work goes. */
export interface TimeSpent {
  readonly reeds: number;
  /** Median over reeds of the minutes at the gauge, where the readings carry their seconds. */
  readonly gaugeMin?: number;
  /** Median over reeds of the minutes with the knife, where they were written down. */
  readonly knifeMin?: number;
  /** Median over reeds of the days from the first pass to the last. */
  readonly days?: number;
  /** Median number of passes of a reed. */
  readonly passes?: number;
  /** Strokes by place, the most first, with their share of all. */
  readonly places: readonly {
    readonly zone: string;
    readonly strokes: number;
    readonly share: number;
    /** Minutes a reed, where they were written down: a pass's minutes are shared out by its strokes. */
    readonly minutes?: number;
  }[];
}

function median(values: readonly number[]): number | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  if (sorted.length === 0) return undefined;
  const half = (sorted.length - 1) / 2;
  return (sorted[Math.floor(half)]! + sorted[Math.ceil(half)]!) / 2;
}

/** Minutes from the first reading of a pass to the last; undefined where none carries its second. */
function minutesAtGauge(pass: Pass | PassHead): number | undefined {
  const seconds = 'readings' in pass ? secondsOf(pass) : pass.readingSeconds;
  return seconds === undefined ? undefined : seconds / 60;
}

const DAY_MS = 86_400_000;

/** Time spent per reed, and where the strokes went, over all passes given. */
export function timeSpent(passes: readonly (Pass | PassHead)[]): TimeSpent {
  const reeds = new Map<string, (Pass | PassHead)[]>();
  for (const pass of passes) reeds.set(pass.reedId, [...(reeds.get(pass.reedId) ?? []), pass]);
  const own = [...reeds.values()];
  const totals = (minutesOf: (pass: Pass | PassHead) => number | undefined) =>
    own.flatMap((all) => {
      const minutes = all.flatMap((pass) => minutesOf(pass) ?? []);
      return minutes.length > 0 ? [minutes.reduce((sum, one) => sum + one, 0)] : [];
    });
  const [gaugeMin, knifeMin] = [totals(minutesAtGauge), totals(({ scrape }) => scrape?.minutes)].map(median);
  const spans = own.flatMap((all) => {
    const times = all.flatMap(({ takenAt }) => (takenAt ? [Date.parse(takenAt)] : []));
    return times.length > 1 ? [(Math.max(...times) - Math.min(...times)) / DAY_MS] : [];
  });
  const [days, count] = [median(spans), median(own.map(({ length }) => length))];
  return {
    reeds: own.length,
    ...(gaugeMin !== undefined && { gaugeMin }),
    ...(knifeMin !== undefined && { knifeMin }),
    ...(days !== undefined && { days }),
    ...(count !== undefined && { passes: count }),
    places: strokesByPlace(passes),
  };
}

function strokesByPlace(passes: readonly (Pass | PassHead)[]): TimeSpent['places'] {
  const places = new Map<string, { strokes: number; minutes: number }>();
  const timed = new Set<string>();
  for (const { scrape, reedId } of passes) {
    const own = scrape?.places ?? [];
    const all = own.reduce((sum, { strokes = 0 }) => sum + strokes, 0);
    if (scrape?.minutes !== undefined && all > 0) timed.add(reedId);
    for (const { zone, strokes = 0 } of own) {
      const before = places.get(zone) ?? { strokes: 0, minutes: 0 };
      const minutes = all > 0 ? ((scrape?.minutes ?? 0) * strokes) / all : 0;
      places.set(zone, { strokes: before.strokes + strokes, minutes: before.minutes + minutes });
    }
  }
  const all = [...places.values()].reduce((sum, { strokes }) => sum + strokes, 0);
  return [...places]
    .filter(([, { strokes }]) => strokes > 0)
    .map(([zone, { strokes, minutes }]) => ({
      zone,
      strokes,
      share: strokes / all,
      ...(timed.size > 0 && { minutes: minutes / timed.size }),
    }))
    .sort((a, b) => b.strokes - a.strokes);
}
