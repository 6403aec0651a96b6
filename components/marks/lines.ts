import { area, line } from 'd3-shape';
import type { Scale } from './marks.ts';

/** One place of a line; without a value the line stops there and starts anew after it. */
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
    ({ value }) => y(value ?? NaN),
  ).defined(({ value }) => value !== undefined);
  return path.digits(1)(places) ?? '';
}

/** The path of a band between two lines. */
export function bandPath(reaches: readonly Reach[], x: Scale, y: Scale): string {
  const path = area<Reach>(
    ({ at }) => x(at),
    ({ low }) => y(low ?? NaN),
    ({ high }) => y(high ?? NaN),
  ).defined(({ low, high }) => low !== undefined && high !== undefined);
  return path.digits(1)(reaches) ?? '';
}
