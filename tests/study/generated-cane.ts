import { normalPairs } from '../../src/numerics/normal-draws.ts';

/** Thickness of cane by distance from the first tip (mm) and place across, mm. */
export type Cane = (fromFirstTipMm: number, across: number) => number;

/** Numbers drawn for one generated reed, all from one seeded source. */
export interface Draws {
  readonly random: () => number;
  readonly between: (low: number, high: number) => number;
  readonly normal: (sd: number) => number;
  readonly chance: (probability: number) => boolean;
}

export function drawsFrom(random: () => number): Draws {
  return {
    random,
    between: (low, high) => low + (high - low) * random(),
    normal: (sd) => sd * normalPairs(random, 1)[0]!,
    chance: (probability) => random() < probability,
  };
}

/** Blades differ, and sides of a blade, by this much where the cane is thick; one standard deviation, mm. */
export const BLADE_AND_SIDE_SD_MM = 0.008;
/** Unevenness of a hand, one standard deviation, mm. */
export const WAVES_SD_MM = 0.003;

/** A smooth step from 0 to 1 about zero. */
const step = (x: number) => (1 + x / Math.sqrt(1 + x * x)) / 2;
const bell = (x: number) => Math.exp(-0.5 * x * x);

/** Two blades of one style, alike but for blade, side and waves. Sizes: common practice, no source. */
export function generatedBlades(style: 'long' | 'short', draws: Draws): Readonly<Record<'A' | 'B', Cane>> {
  const shape = style === 'long' ? longScrape(draws) : shortScrape(draws);
  const own = (): Cane => {
    const blade = draws.normal(BLADE_AND_SIDE_SD_MM);
    const side = draws.normal(BLADE_AND_SIDE_SD_MM);
    const waves = handWaves(draws);
    return (y, u) => {
      const t = shape(y, u);
      // What is thin strays in proportion.
      return t + Math.min(1, t / 0.45) * (blade + side * u + waves(y, u));
    };
  };
  return { A: own(), B: own() };
}

/** Tip, ridge in an inverted U, heart, channels beside a spine, rails. */
function longScrape({ between }: Draws): Cane {
  const tip = { at: between(0.075, 0.1), slope: between(0.025, 0.042), fall: between(0.15, 0.35) };
  const ridge = { at: between(4, 5.2), bow: between(0.3, 1.2), width: between(0.4, 1) };
  const heart = { level: between(0.43, 0.49), fall: between(0.08, 0.14) };
  const spine = between(0.001, 0.004);
  const channel = { deep: between(0.03, 0.08), at: between(0.38, 0.5), sd: between(0.13, 0.22) };
  const reach = { from: between(8, 9.5), to: between(18, 20.5) };
  return (y, u) => {
    const front = (tip.at + tip.slope * y) * (1 - tip.fall * u * u);
    const depth = channel.deep * step((y - reach.from) / 0.7) * step((reach.to - y) / 0.7);
    const windows = bell((u - channel.at) / channel.sd) + bell((u + channel.at) / channel.sd);
    const rear = heart.level + spine * Math.max(0, y - 7) - heart.fall * u * u - depth * windows;
    const share = step((y - ridge.at - ridge.bow * u * u) / ridge.width);
    return front * (1 - share) + rear * share;
  };
}

/** A wedge from tip to catch, bark behind it that comes further up at the sides. */
function shortScrape({ between }: Draws): Cane {
  const wedge = { at: between(0.09, 0.11), slope: between(0.042, 0.05), fall: between(0.2, 0.45) };
  const bark = { level: between(0.56, 0.6), fall: between(0.03, 0.07) };
  const ending = { at: between(10, 12), bow: between(1, 4), width: between(0.4, 0.8) };
  return (y, u) => {
    const front = (wedge.at + wedge.slope * Math.min(y, 12)) * (1 - wedge.fall * u * u);
    const share = step((y - ending.at + ending.bow * u * u) / ending.width);
    return front * (1 - share) + (bark.level - bark.fall * u * u) * share;
  };
}

function handWaves({ between, normal }: Draws): Cane {
  const waves = Array.from({ length: 4 }, () => ({
    size: normal(WAVES_SD_MM / Math.sqrt(2)),
    along: (2 * Math.PI) / between(4, 10),
    across: between(-2, 2),
    phase: between(0, 2 * Math.PI),
  }));
  return (y, u) =>
    waves.reduce(
      (sum, { size, along, across, phase }) => sum + size * Math.cos(along * y + across * u + phase),
      0,
    );
}
