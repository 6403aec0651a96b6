import type { Draws } from '../study/generated-cane.ts';

/** Thickness of a fresh blade by distance from its tip (mm) and place across, mm. */
export type Shape = (fromTipMm: number, across: number) => number;

type Range = readonly [low: number, high: number];

/** Smooth steps from 0 to 1 about zero that rise from 0.1 to 0.9 over 1; the last is fast in front and slow behind. */
const STEPS = {
  root: (x: number) => (1 + (2.667 * x) / Math.sqrt(1 + (2.667 * x) ** 2)) / 2,
  logistic: (x: number) => 1 / (1 + Math.exp(-4.394 * x)),
  cubic: (x: number) => {
    const t = Math.min(1, Math.max(0, 0.608 * x + 0.5));
    return t * t * (3 - 2 * t);
  },
  skew: (x: number) => Math.exp(-Math.exp(-(3.084 * x + 0.3665))),
} as const;

/** What a family of long scrapes is drawn from: lengths in mm, places across in half-widths. */
export interface LongRanges {
  readonly steps: readonly (keyof typeof STEPS)[];
  readonly tipMm: Range;
  readonly tipSlope: Range;
  readonly tipFall: Range;
  readonly ridgeMm: Range;
  readonly ridgeRiseMm: Range;
  readonly ridgeBowMm: Range;
  readonly heartMm: Range;
  readonly heartFallMm: Range;
  readonly spineMm: Range;
  readonly spineWidth: Range;
  readonly channelMm: Range;
  readonly channelAt: Range;
  readonly channelWidth: Range;
  /** Where spine and channels begin, over how much of the length, and where channels end. */
  readonly beginMm: Range;
  readonly beginRiseMm: Range;
  readonly endMm: Range;
  /** What the outermost fifth of the width is thicker by, or thinner. */
  readonly railMm: Range;
  /** Growth of right against left from tip to back. */
  readonly twistMm: Range;
  readonly bumps: Range;
  readonly scale: Range;
}

const USUAL: LongRanges = {
  steps: ['root', 'logistic'],
  tipMm: [0.075, 0.105],
  tipSlope: [0.022, 0.042],
  tipFall: [0.15, 0.35],
  ridgeMm: [4, 5.2],
  ridgeRiseMm: [1.1, 2.4],
  ridgeBowMm: [0.2, 1.1],
  heartMm: [0.42, 0.5],
  heartFallMm: [0.07, 0.13],
  spineMm: [0, 0.02],
  spineWidth: [0.12, 0.2],
  channelMm: [0.03, 0.08],
  channelAt: [0.38, 0.5],
  channelWidth: [0.14, 0.22],
  beginMm: [8, 10],
  beginRiseMm: [1.2, 2.2],
  endMm: [18, 20.5],
  railMm: [0, 0],
  twistMm: [0, 0],
  bumps: [0, 1],
  scale: [1, 1],
};

const ALL_STEPS = ['root', 'logistic', 'cubic', 'skew'] as const;

/** Families of long scrapes. The first four were tuned on, `mixed` for shape between the stations; the others are reported on. */
const LONG: Readonly<Record<string, Partial<LongRanges>>> = {
  usual: {},
  sharp: { ridgeRiseMm: [0.6, 1.2], ridgeMm: [3.8, 5.2] },
  slow: { ridgeRiseMm: [2, 3.4], ridgeMm: [4, 5.6] },
  channels: {
    beginMm: [7, 12],
    beginRiseMm: [0.6, 3],
    channelMm: [0.03, 0.1],
    channelWidth: [0.08, 0.24],
    channelAt: [0.3, 0.58],
    spineMm: [0, 0.05],
    spineWidth: [0.08, 0.2],
  },
  place: { steps: ['skew', 'cubic'], ridgeMm: [3, 6.4], ridgeBowMm: [0, 1.6], ridgeRiseMm: [0.9, 2.8] },
  spine: {
    steps: ['cubic'],
    spineMm: [0.02, 0.06],
    beginMm: [9, 13],
    beginRiseMm: [0.8, 2.5],
    channelMm: [0, 0.06],
  },
  rails: { railMm: [-0.05, 0.06], twistMm: [-0.03, 0.03], bumps: [1, 5], steps: ['skew', 'logistic'] },
  thick: { scale: [1.35, 1.8], ridgeRiseMm: [1.2, 3.2] },
  thin: { scale: [0.7, 0.9], ridgeRiseMm: [1.2, 3.2], steps: ['cubic'] },
  mixed: {
    steps: ALL_STEPS,
    ridgeMm: [3.4, 6],
    ridgeRiseMm: [0.8, 3.2],
    ridgeBowMm: [0, 1.4],
    beginMm: [7.5, 12],
    beginRiseMm: [0.8, 3],
    channelMm: [0.01, 0.09],
    channelAt: [0.32, 0.56],
    channelWidth: [0.1, 0.24],
    spineMm: [0, 0.045],
    spineWidth: [0.1, 0.2],
    railMm: [-0.03, 0.04],
    twistMm: [-0.02, 0.02],
    bumps: [0, 4],
    scale: [0.85, 1.3],
  },
};

export const TUNED_FAMILIES = ['usual', 'sharp', 'slow', 'channels', 'short'] as const;
export const HELD_FAMILIES = ['place', 'spine', 'rails', 'thick', 'thin', 'soft bark', 'mixed'] as const;
export type Family = (typeof TUNED_FAMILIES)[number] | (typeof HELD_FAMILIES)[number];

/** What a family of long scrapes is drawn from. */
export const rangesOf = (family: Family): LongRanges => ({ ...USUAL, ...LONG[family] });

/** The shape of a fresh reed of a family, alike on both blades. Sizes: common practice, no source. */
export function shapeOf(family: Family, draws: Draws): Shape {
  if (family === 'short') return shortScrape(draws, { riseMm: [1, 2], steps: ['root'] });
  if (family === 'soft bark') return shortScrape(draws, { riseMm: [1.5, 3.5], steps: ['skew', 'cubic'] });
  return longScrape(rangesOf(family), draws);
}

const bell = (x: number) => Math.exp(-0.5 * x * x);

/** One shape drawn from ranges, alike on both blades. */
export function longScrape(ranges: LongRanges, draws: Draws): Shape {
  const among = (range: Range) => draws.between(...range);
  const step = STEPS[ranges.steps[Math.floor(draws.random() * ranges.steps.length)]!];
  const [tip, slope, tipFall] = [among(ranges.tipMm), among(ranges.tipSlope), among(ranges.tipFall)];
  const [ridge, rise, bow] = [among(ranges.ridgeMm), among(ranges.ridgeRiseMm), among(ranges.ridgeBowMm)];
  const [heart, heartFall, growth] = [
    among(ranges.heartMm),
    among(ranges.heartFallMm),
    draws.between(0, 0.004),
  ];
  const [spine, spineWidth] = [among(ranges.spineMm), among(ranges.spineWidth)];
  const channel = {
    deep: among(ranges.channelMm),
    at: among(ranges.channelAt),
    width: among(ranges.channelWidth),
  };
  const [begin, beginRise, end] = [among(ranges.beginMm), among(ranges.beginRiseMm), among(ranges.endMm)];
  const [rail, twist, scale] = [among(ranges.railMm), among(ranges.twistMm), among(ranges.scale)];
  const bumps = bumpsOf(Math.round(among(ranges.bumps)), draws);
  return (y, u) => {
    const front = (tip + slope * y) * (1 - tipFall * u * u);
    const back = step((y - begin) / beginRise);
    const windows = bell((u - channel.at) / channel.width) + bell((u + channel.at) / channel.width);
    const rear =
      heart +
      growth * Math.max(0, y - 7) -
      heartFall * u * u +
      rail * Math.max(0, (Math.abs(u) - 0.6) / 0.4) ** 2 +
      spine * back * bell(u / spineWidth) -
      channel.deep * back * step((end - y) / 1.9) * windows;
    const share = step((y - ridge - bow * u * u) / rise);
    const whole = front * (1 - share) + rear * share;
    return scale * whole * (1 + ((twist / 0.45) * u * Math.min(y, 20)) / 20 + bumps(y, u));
  };
}

function shortScrape(
  draws: Draws,
  { riseMm, steps }: Pick<LongRanges, 'steps'> & { readonly riseMm: Range },
): Shape {
  const { between } = draws;
  const step = STEPS[steps[Math.floor(draws.random() * steps.length)]!];
  const wedge = { at: between(0.085, 0.115), slope: between(0.04, 0.05), fall: between(0.15, 0.45) };
  const bark = { level: between(0.55, 0.61), fall: between(0.02, 0.08) };
  const ending = { at: between(9.5, 12.5), bow: between(0.5, 4), rise: between(...riseMm) };
  const bumps = bumpsOf(Math.round(between(0, 2)), draws);
  return (y, u) => {
    const front = (wedge.at + wedge.slope * Math.min(y, 13)) * (1 - wedge.fall * u * u);
    const share = step((y - ending.at + ending.bow * u * u) / ending.rise);
    return (front * (1 - share) + (bark.level - bark.fall * u * u) * share) * (1 + bumps(y, u));
  };
}

/** Local unevenness in proportion to the thickness. */
function bumpsOf(count: number, { between }: Draws): Shape {
  const bumps = Array.from({ length: count }, () => ({
    share: between(-0.035, 0.035),
    ...{ y: between(1, 19), u: between(-0.8, 0.8) },
    ...{ along: between(0.8, 2.2), across: between(0.15, 0.45) },
  }));
  return (y, u) =>
    bumps.reduce(
      (sum, one) => sum + one.share * bell((y - one.y) / one.along) * bell((u - one.u) / one.across),
      0,
    );
}
