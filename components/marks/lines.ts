import { area, line } from 'd3-shape';
import type { Scale } from './marks.ts';

/** One place of a line; without a value, or with none that is a number, the line stops there and starts anew after it. */
export interface Place {
  readonly at: number;
  readonly value?: number | undefined;
}

/** One place of a band; without its ends the band stops there. */
export interface Reach {
  readonly at: number;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

/** The path of a line that is never drawn over what was not read. */
export function linePath(places: readonly Place[], x: Scale, y: Scale): string {
  const path = line<Place>(
    ({ at }) => x(at),
    ({ value = NaN }) => y(value),
  ).defined(({ value = NaN }) => !Number.isNaN(value));
  return path.digits(2)(places) ?? '';
}

/** The path of a band between two lines. */
export function bandPath(reaches: readonly Reach[], x: Scale, y: Scale): string {
  const path = area<Reach>(
    ({ at }) => x(at),
    ({ low = NaN }) => y(low),
    ({ high = NaN }) => y(high),
  ).defined(({ low = NaN, high = NaN }) => !Number.isNaN(low + high));
  return path.digits(2)(reaches) ?? '';
}
