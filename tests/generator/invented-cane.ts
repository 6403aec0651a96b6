import { BLADES, type Blade } from '../../shared/blade.ts';

export type Style = 'long' | 'short';
export type Random = () => number;
/** True thickness, mm, at a distance from the cork end and a place across. */
export type CaneShape = (blade: Blade, zMm: number, across: number) => number;

/** Standard deviations from reed to reed, mm. Invented. */
export const DIFFERENCES = { bladeMm: 0.008, sideMm: 0.008, rippleMm: 0.004, ridgeMm: 0.25 } as const;

const logistic = (x: number) => 1 / (1 + Math.exp(-x));

function longScrape(y: number, u: number, ridgeMm: number): number {
  const tip = 0.1 + 0.028 * y - 0.04 * u * u;
  const body = 0.45 + 0.006 * (y - 6) - 0.1 * u * u * Math.exp(-((y - 6) ** 2) / 30);
  const channels = 0.055 * logistic((y - 9) * 1.2) * Math.exp(-(((Math.abs(u) - 0.42) / 0.2) ** 2));
  return tip + (body - tip) * logistic((y - ridgeMm - 0.8 * u * u) * 1.7) - channels;
}

function shortScrape(y: number, u: number, ridgeMm: number): number {
  const slope = 0.09 + 0.05 * y - 0.035 * u * u;
  const bark = 0.585 - 0.03 * u * u;
  return slope + (bark - slope) * logistic((y - ridgeMm - 3.6 + 1.2 * u * u) * 1.6);
}

/** A blank of either style: blades and sides differ, and each blade has ripples of its own. */
export function inventedCane(style: Style, overallLengthMm: number, random: Random): CaneShape {
  const normal = normalFrom(random);
  const ridgeMm = 4.5 + DIFFERENCES.ridgeMm * normal();
  const own = new Map(
    BLADES.map((blade) => [
      blade,
      {
        offset: (DIFFERENCES.bladeMm / Math.SQRT2) * normal(),
        tilt: (DIFFERENCES.sideMm / Math.SQRT2) * normal(),
        ripples: Array.from({ length: 4 }, () => ({
          size: DIFFERENCES.rippleMm * normal(),
          phase: 2 * Math.PI * random(),
          along: 0.3 + 0.4 * random(),
          across: 1.5 * normal(),
        })),
      },
    ]),
  );
  return (blade, zMm, across) => {
    const y = overallLengthMm - zMm;
    const { offset, tilt, ripples } = own.get(blade)!;
    const base = (style === 'long' ? longScrape : shortScrape)(y, across, ridgeMm);
    const ripple = ripples.reduce(
      (sum, { size, phase, along, across: k }) => sum + size * Math.sin(phase + along * y + k * across),
      0,
    );
    const room = Math.min(1, base / 0.3);
    return base + room * (offset + tilt * across + ripple);
  };
}

/** Standard normal numbers. Source: Box & Muller 1958, from memory. */
export function normalFrom(random: Random): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
