import { normalDensity, normalUpperTail } from '../numerics/normal-distribution.ts';

/**
 * How likely the changes of one zone are, given that a knife may have been there between two passes: nowhere, in
 * patches, or evenly over the whole zone; on one blade or, more often, alike on both.
 */

/**
 * Changes (reading less what the cane was, mm) with their standard deviations. Here and below lists are plain: a typed
 * array of this size takes longer to make than to work through.
 */
export interface Changes {
  readonly changeMm: readonly number[];
  readonly uMm: readonly number[];
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

/** Log-likelihood of the changes of one zone on the blades that were read there, one or two. */
export function zoneLogLikelihood(blades: readonly Changes[]): number {
  const patchy = blades.map(patchyLogLikelihoods);
  const even = blades.map(evenLogLikelihoods);
  const alone = blades.map((_, b) =>
    logSum([
      LOG_PRIOR.patchy + logMean(patchy[b]!),
      LOG_PRIOR.even + logSum(even[b]!.map((level, i) => level + EVEN_LOG_SHARES[i]!)),
    ]),
  );
  if (blades.length < 2) return alone[0]!;
  return logSum([
    LOG_PRIOR.patchy + logMean(patchy[0]!.map((own, i) => own + patchy[1]![i]!)),
    LOG_PRIOR.even + logSumOfPairs(even[0]!, even[1]!),
    LOG_PRIOR.apart + alone[0]! + alone[1]!,
  ]);
}

/** One for each mean loss and share of patches. */
function patchyLogLikelihoods({ changeMm, uMm }: Changes): number[] {
  const n = changeMm.length;
  const [untouched, loss] = [new Array<number>(n).fill(0), new Array<number>(n).fill(0)];
  for (let i = 0; i < n; i++) untouched[i] = untouchedDensity(changeMm[i]!, uMm[i]!);
  const result: number[] = [];
  for (const meanMm of PATCH_MEANS_MM) {
    for (let i = 0; i < n; i++) loss[i] = lossDensity(changeMm[i]!, uMm[i]!, meanMm, untouched[i]!);
    for (const share of PATCH_SHARES) result.push(mixtureLogLikelihood(untouched, loss, share));
  }
  return result;
}

function mixtureLogLikelihood(untouched: readonly number[], loss: readonly number[], share: number): number {
  const [still, scraped] = [SOUND_SHARE * (1 - share), SOUND_SHARE * share];
  let sum = 0;
  let product = 1;
  for (let i = 0; i < untouched.length; i++) {
    product *= STRAY_DENSITY + still * untouched[i]! + scraped * loss[i]!;
    if (i % FACTORS_AT_ONCE !== FACTORS_AT_ONCE - 1) continue;
    sum += Math.log(product);
    product = 1;
  }
  return sum + Math.log(product);
}

/** One for each even loss, from none. */
function evenLogLikelihoods({ changeMm, uMm }: Changes): number[] {
  const sums = new Array<number>(EVEN_LEVELS).fill(0);
  let peaks = 0;
  for (let i = 0; i < changeMm.length; i++) {
    const scale = 1 / uMm[i]!;
    peaks += Math.log(scale / Math.sqrt(2 * Math.PI));
    for (let k = 0; k < EVEN_LEVELS; k++) {
      const z = (changeMm[i]! + k * EVEN_STEP_MM) * scale;
      const cost = 0.5 * z * z;
      sums[k]! -= cost < STRAY_COST ? cost : STRAY_COST;
    }
  }
  for (let k = 0; k < EVEN_LEVELS; k++) sums[k]! += peaks;
  return sums;
}

/** Logarithms of the shares of even losses of one blade. */
const EVEN_LOG_SHARES = sharesOf((level) => -(level * EVEN_STEP_MM) / EVEN_MEAN_MM, EVEN_LEVELS).map(
  Math.log,
);

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

function logSumOfPairs(a: number[], b: number[]): number {
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
function scaleToTop(logs: number[]): number {
  let top = -Infinity;
  for (let i = 0; i < logs.length; i++) top = Math.max(top, logs[i]!);
  for (let i = 0; i < logs.length; i++) logs[i] = logs[i]! < top - NEGLIGIBLE ? 0 : Math.exp(logs[i]! - top);
  return top;
}

function logSum(logs: readonly number[]): number {
  let top = -Infinity;
  for (let i = 0; i < logs.length; i++) top = Math.max(top, logs[i]!);
  let sum = 0;
  for (let i = 0; i < logs.length; i++) if (logs[i]! > top - NEGLIGIBLE) sum += Math.exp(logs[i]! - top);
  return top + Math.log(sum);
}

function logMean(logs: readonly number[]): number {
  return logSum(logs) - Math.log(logs.length);
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
