import { normalDensity, normalUpperTail } from '../numerics/normal-distribution.ts';

/**
 * How likely the changes of one zone are, given that a knife may have been there between two passes: nowhere, in
 * patches, or evenly over the whole zone; on one blade or, more often, alike on both.
 */

/** Changes (reading less what the cane was, mm) with their standard deviations. */
export interface Changes {
  readonly changeMm: Float64Array;
  readonly uMm: Float64Array;
}

/** Shares of a zone that patches cover, and mean losses in them. Common practice, no source. */
const PATCH_SHARES = [0.01, 0.1, 0.3, 0.6, 0.9];
const PATCH_MEANS_MM = [0.008, 0.02, 0.05];
/** Even losses: none to 0.06 mm, the rarer the larger, of this mean. Common practice, no source. */
const EVEN_STEP_MM = 0.0025;
const EVEN_LEVELS = 25;
const EVEN_MEAN_MM = 0.02;
/** How unlike two blades are that were scraped evenly alike, one standard deviation. */
const EVEN_UNLIKE_MM = 0.006;
/** How often a zone is scraped in patches, evenly, or differently on the two blades; logarithms of shares. */
const LOG_PRIOR = { patchy: Math.log(0.77), even: Math.log(0.2), apart: Math.log(0.03) };
/** Readings that nothing explains: slips and digs, anywhere within half a millimetre. */
const STRAY_SHARE = 0.004;
const STRAY_DENSITY = STRAY_SHARE / 0.5;
const SOUND_SHARE = 1 - STRAY_SHARE;
/** An even loss is spoilt by one reading at most this much: what a stray costs. */
const STRAY_COST = 8.7;
const STRAY_Z = Math.sqrt(2 * STRAY_COST);
/** Logarithms this far under the largest add nothing that counts. */
const NEGLIGIBLE = 20;
/** Factors multiplied before a logarithm is taken; densities stay far from the ends of a double's range. */
const FACTORS_AT_ONCE = 32;

/** Log-likelihood of changes of cane that nobody scraped. */
export function untouchedLogLikelihood({ changeMm, uMm }: Changes): number {
  return changeMm.reduce(
    (sum, change, i) => sum + Math.log(STRAY_DENSITY + SOUND_SHARE * untouchedDensity(change, uMm[i]!)),
    0,
  );
}

/** Log-likelihoods of one blade's changes: one for each mean loss and share of patches, one for each even loss from none. */
interface OneBlade {
  readonly patchy: Float64Array;
  readonly even: Float64Array;
}

/** Written anew for each zone: a search asks thousands of times, and lists of this size take longer to make than to fill. */
const ON_BLADES = [0, 1].map((): OneBlade => ({
  patchy: new Float64Array(PATCH_MEANS_MM.length * PATCH_SHARES.length),
  even: new Float64Array(EVEN_LEVELS),
}));

/** Log-likelihood of the changes of one zone on the blades that were read there, one or two. */
export function zoneLogLikelihood(blades: readonly Changes[]): number {
  blades.forEach((changes, b) => {
    patchyLogLikelihoods(changes, ON_BLADES[b]!.patchy);
    evenLogLikelihoods(changes, ON_BLADES[b]!.even);
  });
  const [one, other] = ON_BLADES as [OneBlade, OneBlade];
  if (blades.length < 2) return aloneLogLikelihood(one);
  const apart = aloneLogLikelihood(one) + aloneLogLikelihood(other);
  const patchy = LOG_PRIOR.patchy + logMeanWith(one.patchy, other.patchy);
  const even = LOG_PRIOR.even + logSumOfPairs(one.even, other.even);
  return logAdd(logAdd(patchy, even), LOG_PRIOR.apart + apart);
}

function aloneLogLikelihood({ patchy, even }: OneBlade): number {
  return logAdd(
    LOG_PRIOR.patchy + logMeanWith(patchy, NONE),
    LOG_PRIOR.even + logSumWith(even, EVEN_LOG_SHARES),
  );
}

/** Each reading's density where nothing went. */
let still = new Float64Array(256);

function patchyLogLikelihoods({ changeMm, uMm }: Changes, result: Float64Array): void {
  const n = changeMm.length;
  if (n > still.length) still = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) still[i] = untouchedDensity(changeMm[i]!, uMm[i]!);
  result.fill(0);
  for (let from = 0; from < n; from += FACTORS_AT_ONCE)
    for (let m = 0; m < PATCH_MEANS_MM.length; m++)
      addLogarithms({ changeMm, uMm }, from, Math.min(from + FACTORS_AT_ONCE, n), m, result);
}

const [FEWEST, FEW, SOME, MANY, MOST] = PATCH_SHARES.map((share) => SOUND_SHARE * share) as [
  number,
  number,
  number,
  number,
  number,
];

/** Of some readings and one mean loss, for all shares of patches at once: the products do not wait for each other. */
function addLogarithms(
  { changeMm, uMm }: Changes,
  from: number,
  end: number,
  mean: number,
  result: Float64Array,
): void {
  const meanMm = PATCH_MEANS_MM[mean]!;
  let [p, q, r, s, t] = [1, 1, 1, 1, 1];
  for (let i = from; i < end; i++) {
    const untouched = still[i]!;
    const whole = STRAY_DENSITY + SOUND_SHARE * untouched;
    const more = lossDensity(changeMm[i]!, uMm[i]!, meanMm, untouched) - untouched;
    p *= whole + FEWEST * more;
    q *= whole + FEW * more;
    r *= whole + SOME * more;
    s *= whole + MANY * more;
    t *= whole + MOST * more;
  }
  [p, q, r, s, t].forEach(
    (product, share) => (result[mean * PATCH_SHARES.length + share]! += Math.log(product)),
  );
}

/** How a sum over levels k of a + b k + c k2 grows and falls where readings come and go, level by level. */
const comes = [0, 1, 2].map(() => new Float64Array(EVEN_LEVELS + 1)) as [
  Float64Array,
  Float64Array,
  Float64Array,
];

/**
 * What a reading costs is a square of the level as far as it is no stray: the squares of all readings are summed by what
 * they are made of, and not level by level.
 */
function evenLogLikelihoods({ changeMm, uMm }: Changes, result: Float64Array): void {
  const [flat, rising, bent] = comes;
  for (const terms of comes) terms.fill(0);
  let peaks = 0;
  for (let i = 0; i < changeMm.length; i++) {
    const scale = 1 / uMm[i]!;
    peaks += Math.log(scale / Math.sqrt(2 * Math.PI)) - STRAY_COST;
    const z = changeMm[i]! * scale;
    const rise = EVEN_STEP_MM * scale;
    const from = Math.max(0, Math.ceil((-STRAY_Z - z) / rise));
    const to = Math.min(EVEN_LEVELS, Math.floor((STRAY_Z - z) / rise) + 1);
    if (from >= to) continue;
    const a = STRAY_COST - 0.5 * z * z;
    const b = -z * rise;
    const c = -0.5 * rise * rise;
    flat[from]! += a;
    flat[to]! -= a;
    rising[from]! += b;
    rising[to]! -= b;
    bent[from]! += c;
    bent[to]! -= c;
  }
  let [a, b, c] = [0, 0, 0];
  for (let k = 0; k < EVEN_LEVELS; k++) {
    a += flat[k]!;
    b += rising[k]!;
    c += bent[k]!;
    result[k] = peaks + a + k * (b + k * c);
  }
}

/** Logarithms of the shares of even losses of one blade. */
const EVEN_LOG_SHARES = sharesOf((level) => -(level * EVEN_STEP_MM) / EVEN_MEAN_MM, EVEN_LEVELS).map(
  Math.log,
);
const NONE = new Float64Array(PATCH_MEANS_MM.length * PATCH_SHARES.length);

/** Shares of pairs of even losses of two blades, row by row. */
const PAIR_SHARES = sharesOf((pair) => {
  const [a, b] = [Math.floor(pair / EVEN_LEVELS), pair % EVEN_LEVELS];
  const unlike = ((a - b) * EVEN_STEP_MM) / EVEN_UNLIKE_MM;
  return -((a + b) * EVEN_STEP_MM) / (2 * EVEN_MEAN_MM) - 0.5 * unlike * unlike;
}, EVEN_LEVELS * EVEN_LEVELS);

/** Numbers that make 1 together, from logarithms that need not. */
function sharesOf(logarithm: (index: number) => number, count: number): Float64Array {
  const raw = Float64Array.from({ length: count }, (_, index) => Math.exp(logarithm(index)));
  const total = raw.reduce((sum, share) => sum + share, 0);
  return raw.map((share) => share / total);
}

/** Uses both up. */
function logSumOfPairs(a: Float64Array, b: Float64Array): number {
  const topA = scaleToTop(a);
  const topB = scaleToTop(b);
  let sum = Number.MIN_VALUE;
  for (let i = 0; i < EVEN_LEVELS; i++) {
    if (a[i] === 0) continue;
    let row = 0;
    for (let j = 0; j < EVEN_LEVELS; j++) row += PAIR_SHARES[i * EVEN_LEVELS + j]! * b[j]!;
    sum += a[i]! * row;
  }
  return topA + topB + Math.log(sum);
}

/** Turns logarithms into numbers up to 1, in place, and returns the largest logarithm. */
function scaleToTop(logs: Float64Array): number {
  let top = -Infinity;
  for (let i = 0; i < logs.length; i++) top = Math.max(top, logs[i]!);
  for (let i = 0; i < logs.length; i++) logs[i] = logs[i]! < top - NEGLIGIBLE ? 0 : Math.exp(logs[i]! - top);
  return top;
}

/** Logarithm of the sum of two numbers of which the logarithms are given. */
function logAdd(a: number, b: number): number {
  const top = Math.max(a, b);
  const low = Math.min(a, b);
  return low > top - NEGLIGIBLE ? top + Math.log(1 + Math.exp(low - top)) : top;
}

/** The same of as many as stand in a list, each times what stands in another. */
function logSumWith(logs: Float64Array, more: Float64Array): number {
  let top = -Infinity;
  for (let i = 0; i < logs.length; i++) top = Math.max(top, logs[i]! + more[i]!);
  let sum = 0;
  for (let i = 0; i < logs.length; i++) {
    const log = logs[i]! + more[i]!;
    if (log > top - NEGLIGIBLE) sum += Math.exp(log - top);
  }
  return top + Math.log(sum);
}

function logMeanWith(logs: Float64Array, more: Float64Array): number {
  return logSumWith(logs, more) - Math.log(logs.length);
}

function untouchedDensity(changeMm: number, uMm: number): number {
  const z = changeMm / uMm;
  return Math.exp(-0.5 * z * z) / (uMm * Math.sqrt(2 * Math.PI));
}

/** Density of a change that is a normal error less an exponential loss; `untouched` is that of the error alone. */
function lossDensity(changeMm: number, uMm: number, meanMm: number, untouched: number): number {
  const tail = changeMm / uMm + uMm / meanMm;
  if (tail >= MILLS_FROM) return (untouched * uMm * millsRatio(tail)) / meanMm;
  return Math.exp(changeMm / meanMm + (uMm * uMm) / (2 * meanMm * meanMm)) / meanMm;
}

const MILLS_FROM = -5;
const MILLS_TO = 12;
const MILLS_PER_SD = 50;
const MILLS = Float64Array.from({ length: (MILLS_TO - MILLS_FROM) * MILLS_PER_SD + 2 }, (_, i) => {
  const t = MILLS_FROM + i / MILLS_PER_SD;
  return normalUpperTail(t) / normalDensity(t);
});

/** Upper tail of the normal distribution over its density, from a table: a thousandth is enough here. */
function millsRatio(t: number): number {
  if (t >= MILLS_TO) return t / (t * t + 1);
  const at = (t - MILLS_FROM) * MILLS_PER_SD;
  const k = Math.floor(at);
  return MILLS[k]! + (at - k) * (MILLS[k + 1]! - MILLS[k]!);
}
