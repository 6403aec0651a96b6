import type { OutlinePoint, Style, Zone } from '../../shared/style.ts';

/** A style before it is kept: the sets that the bench starts with have names instead of identifiers. */
export type StyleTemplate = Pick<Style, 'name' | 'startingSet' | 'lengths' | 'zones' | 'floors'> & {
  readonly key: string;
  /** Usual width at the tip, mm. */
  readonly tipWidthMm: number;
};

const tip = (fromTipMm: number, across: number): OutlinePoint => ({ fromTipMm, across, hangsFrom: 'tip' });
/** The scrape's end, and what lies beyond it. */
const cane = (fromTipMm: number, across: number): OutlinePoint => ({ fromTipMm, across, hangsFrom: 'cane' });
const mirrored = (outline: readonly OutlinePoint[]): OutlinePoint[] =>
  outline.map(({ across, ...rest }) => ({ ...rest, across: across === 0 ? 0 : -across }));
/** Both sides of the blade: an outline on the right and its mirror on the left. */
const bothSides = (outline: OutlinePoint[]): OutlinePoint[][] => [mirrored(outline), outline];
const zone = (name: string, title: string, ...outlines: OutlinePoint[][]): Zone => ({
  name,
  title,
  outlines,
});

const oval = (fromMm: number, toMm: number, centre: number, halfWidth: number): OutlinePoint[] =>
  Array.from({ length: 16 }, (_, k) => {
    const angle = (2 * Math.PI * k) / 16;
    const along = (fromMm + toMm) / 2 - ((toMm - fromMm) / 2) * Math.cos(angle);
    return tip(along, centre + halfWidth * Math.sin(angle));
  });

const corners = zone(
  'corners',
  'Corners',
  ...bothSides([tip(0, 0.71), tip(0, 1), tip(1.5, 1), tip(1.5, 0.71)]),
);

/** Lower edge of the tip, from right to left: further down at the sides. */
const longTipEnd = [tip(5, 1), tip(4.3, 0.5), tip(3.7, 0), tip(4.3, -0.5), tip(5, -1)];
const longBlendEnd = [tip(6, 1), tip(5.4, 0.5), tip(5, 0), tip(5.4, -0.5), tip(6, -1)];

/**
 * Zones, lengths and floors of a long scrape for a careful maker to change. Common practice, no source.
 */
export const LONG_SCRAPE: StyleTemplate = {
  key: 'long-scrape',
  name: 'Long scrape',
  startingSet: true,
  tipWidthMm: 7,
  lengths: { tipMm: 4, heartEndMm: 9, scrapeEndMm: 20 },
  zones: [
    corners,
    zone('tip', 'Tip', [tip(0, -1), tip(0, 1), ...longTipEnd]),
    zone('blend', 'Blend', [...[...longTipEnd].reverse(), ...longBlendEnd]),
    zone('heart', 'Heart', [
      tip(5, 0),
      tip(5.4, 0.5),
      tip(5.6, 0.6),
      tip(9, 0.6),
      tip(9.3, 0.4),
      tip(8.7, 0),
      tip(9.3, -0.4),
      tip(9, -0.6),
      tip(5.6, -0.6),
      tip(5.4, -0.5),
    ]),
    zone('heart-sides', 'Heart sides', ...bothSides([tip(5.6, 0.6), tip(6, 1), tip(9, 1), tip(9, 0.6)])),
    zone('spine', 'Spine', [tip(9, -0.2), tip(9, 0.2), cane(20, 0.2), cane(20, -0.2)]),
    zone('windows', 'Windows', ...bothSides(oval(9.2, 18.8, 0.46, 0.23))),
    zone('rails', 'Rails', ...bothSides([tip(9, 0.74), tip(9, 1), cane(20, 1), cane(20, 0.74)])),
  ],
  floors: {
    fromTipMm: [0, 0.5, 2, 3.5, 3.6, 5.5, 6, 9, 9.4, 20, 20.1],
    across: [0, 0.4, 0.8],
    floorMm: [
      [0.06, 0.05, 0.03],
      [0.06, 0.05, 0.03],
      [0.11, 0.09, 0.07],
      [0.15, 0.125, 0.1],
      [null, null, null],
      [null, null, null],
      [0.4, 0.36, 0.27],
      [0.4, 0.36, 0.27],
      [0.44, 0.34, 0.35],
      [0.44, 0.34, 0.35],
      [null, null, null],
    ],
  },
};

const shortTipEnd = [tip(3.5, 1), tip(2.9, 0.5), tip(2.5, 0), tip(2.9, -0.5), tip(3.5, -1)];

/** Zones, lengths and floors of a short scrape for a careful maker to change. Common practice, no source. */
export const SHORT_SCRAPE: StyleTemplate = {
  key: 'short-scrape',
  name: 'Short scrape',
  startingSet: true,
  tipWidthMm: 7.2,
  lengths: { tipMm: 2.5, heartEndMm: 8.5, scrapeEndMm: 11 },
  zones: [
    corners,
    zone('tip', 'Tip', [tip(0, -1), tip(0, 1), ...shortTipEnd]),
    zone('slope-upper', 'Upper slope', [...[...shortTipEnd].reverse(), tip(5.5, 1), tip(5.5, -1)]),
    zone('slope-lower', 'Lower slope', [tip(5.5, -0.6), tip(5.5, 0.6), tip(8.5, 0.6), tip(8.5, -0.6)]),
    zone('flanks', 'Flanks', ...bothSides([tip(2.5, 0.65), tip(2.5, 1), tip(8, 1), tip(8, 0.65)])),
    zone('catch', 'Catch', [tip(9, -1), tip(9, 1), cane(11, 1), cane(11, -1)]),
    zone('bark', 'Bark', [cane(13, -1), cane(13, 1), cane(21, 1), cane(21, -1)]),
  ],
  floors: {
    fromTipMm: [0, 0.5, 2, 3, 5, 6, 8, 8.1],
    across: [0, 0.4, 0.8],
    floorMm: [
      [0.06, 0.05, 0.03],
      [0.06, 0.05, 0.03],
      [0.12, 0.1, 0.07],
      [0.16, 0.14, 0.105],
      [0.26, 0.22, 0.165],
      [0.31, 0.27, 0.21],
      [0.36, 0.33, 0.3],
      [null, null, null],
    ],
  },
};

export const STARTING_STYLES: readonly StyleTemplate[] = [LONG_SCRAPE, SHORT_SCRAPE];

const TITLES = new Map(
  STARTING_STYLES.flatMap(({ zones }) => zones.map(({ name, title }) => [name, title] as const)),
);

/** A zone as strokes were written down for it, in words: `heart sides`; the maker's own words as they are. */
export const zoneWords = (name: string): string => TITLES.get(name)?.toLowerCase() ?? name;

/** The starting set with this key, or the long scrape for any other word. */
export function startingStyle(key: string): StyleTemplate {
  return STARTING_STYLES.find((style) => style.key === key) ?? LONG_SCRAPE;
}
