import { scaleLinear } from 'd3-scale';
import { contrast } from './contrast.ts';
import { MAP_INKS, PALETTE, type Theme } from './palette.ts';
import { RAMP_TABLES } from './ramps.ts';

/** What a map's colour stands for. */
export type Quantity = 'thickness' | 'difference' | 'doubt' | 'believable' | 'slope';
export const QUANTITIES: readonly Quantity[] = ['thickness', 'difference', 'doubt', 'believable', 'slope'];
/** Those drawn in greys, from surer to less sure. */
export const GREYS: readonly Quantity[] = ['doubt', 'believable'];

/** One step of a legend: values from `fromMm` up to, not including, `toMm` share a colour. */
export interface Band {
  readonly fromMm: number;
  readonly toMm: number;
  readonly colour: string;
  /** Colour of a number written on it, 4.5 : 1 or better. */
  readonly ink: string;
}

/** A banded scale of colour. Values beyond an end take the band at that end. */
export interface Ramp {
  readonly quantity: Quantity;
  readonly fromMm: number;
  readonly toMm: number;
  readonly bands: readonly Band[];
}

interface Scale {
  readonly fromMm: number;
  readonly toMm: number;
  readonly bandMm: number;
}

/**
 * Extent and step of each scale, the same in every theme. Thickness and difference follow the tables in `ramps.ts`;
 * slope, mm per mm, has the colours of thickness; doubt and the smallest believable change are what the screen shows, 95 %.
 */
const SCALES: Readonly<Record<Quantity, Scale>> = {
  thickness: { fromMm: 0.04, toMm: 0.6, bandMm: 0.02 },
  difference: { fromMm: -0.08, toMm: 0.08, bandMm: 0.01 },
  doubt: { fromMm: 0, toMm: 0.03, bandMm: 0.003 },
  believable: { fromMm: 0, toMm: 0.06, bandMm: 0.006 },
  slope: { fromMm: -0.04, toMm: 0.12, bandMm: 0.01 },
};

/** Share of ink in the greyest band: the most that still lets `ink` be read on it in every theme. */
const GREYEST = 0.36;
const MIN_CONTRAST = 4.5;

function colours(quantity: Quantity, theme: Theme): readonly string[] {
  if (quantity === 'difference') return RAMP_TABLES[theme].difference;
  if (!GREYS.includes(quantity)) return RAMP_TABLES[theme].thickness;
  const { plate, ink } = PALETTE[theme];
  const mix = scaleLinear<string>().domain([0, 1]).range([plate, ink]);
  return [mix(0), mix(GREYEST)];
}

function readableOn(colour: string, theme: Theme): string {
  const inks = MAP_INKS[theme];
  const first = inks.find((ink) => contrast(ink, colour) >= MIN_CONTRAST);
  return first ?? inks.reduce((best, ink) => (contrast(ink, colour) > contrast(best, colour) ? ink : best));
}

/** The banded colours of a quantity: each band has the table's colour at its middle. */
export function ramp(quantity: Quantity, theme: Theme): Ramp {
  const { fromMm, toMm, bandMm } = SCALES[quantity];
  const table = colours(quantity, theme);
  const colourAt = scaleLinear<string>()
    .domain(table.map((_, i) => fromMm + ((toMm - fromMm) * i) / (table.length - 1)))
    .range(table);
  const bands = Array.from({ length: Math.round((toMm - fromMm) / bandMm) }, (_, i) => {
    const colour = colourAt(fromMm + (i + 0.5) * bandMm);
    return {
      fromMm: fromMm + i * bandMm,
      toMm: fromMm + (i + 1) * bandMm,
      colour,
      ink: readableOn(colour, theme),
    };
  });
  return { quantity, fromMm, toMm, bands };
}

/** Number of the band that a value falls in, the end bands holding what lies beyond. */
export function bandOf(scale: Ramp, valueMm: number): number {
  // A value that is a band's border on paper may miss it by a rounding error; it belongs to the band above.
  return Math.min(Math.max(Math.floor(bandPosition(scale, valueMm) + 1e-9), 0), scale.bands.length - 1);
}

/** Where a value stands on the ramp, counted in bands from its lower end; beyond an end it goes on. */
export function bandPosition({ fromMm, toMm, bands }: Ramp, valueMm: number): number {
  return ((valueMm - fromMm) / (toMm - fromMm)) * bands.length;
}
