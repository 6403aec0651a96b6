import { extent, range, ticks } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import type { SVGTemplateResult } from 'lit';
import { MM_PER } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { plainText } from '../../src/words/format.ts';
import { levels, ruler } from '../marks/axes.ts';
import type { Scale } from '../marks/marks.ts';

const SIZES = { usual: { width: 384, height: 204 }, narrow: { width: 216, height: 196 } };
const MARGIN = { top: 10, right: 10, bottom: 26, left: 30 };

/** Scales of a chart: thickness in mm upwards, distance to the right. */
export interface ChartFrame {
  readonly width: number;
  readonly height: number;
  readonly x: Scale;
  readonly y: Scale;
  readonly bottom: number;
}

/** @param size Narrow where the chart has little room, so that its words stay as large. */
export function chartFrame(
  at: readonly number[],
  thicknessMm: readonly number[],
  size: keyof typeof SIZES = 'usual',
): ChartFrame {
  const { width, height } = SIZES[size];
  const [from = 0, to = 1] = extent(at);
  const [, most = 0.6] = extent(thicknessMm);
  const bottom = height - MARGIN.bottom;
  return {
    width,
    height,
    bottom,
    x: scaleLinear()
      .domain([Math.min(from, 0), to])
      .range([MARGIN.left, width - MARGIN.right]),
    y: scaleLinear()
      .domain([0, most * 1.05])
      .range([bottom, MARGIN.top]),
  };
}

/** Hairlines at whole figures of the maker's unit, with their numbers. */
export function thicknessAxis({ y, x }: ChartFrame, writing: NumberFormat): SVGTemplateResult {
  const per = MM_PER[writing.unit];
  const values = ticks(0, y.domain()[1]! / per, 6).filter((value) => value > 0);
  const inUnit = scaleLinear([0, y.domain()[1]! / per], y.range());
  return levels(inUnit, x.range() as [number, number], values, (value) => plainText(value, writing));
}

/** A ruler along the bottom: a tick each step, longer and labelled each five. */
export function distanceAxis(
  { x, bottom }: ChartFrame,
  { step, labelEach }: { readonly step: number; readonly labelEach: number },
  writing: Pick<NumberFormat, 'decimal'>,
): SVGTemplateResult {
  const [from, to] = x.domain() as [number, number];
  const every = (apart: number) =>
    range(Math.ceil(from / apart - 1e-9), Math.floor(to / apart + 1e-9) + 1).map((k) => k * apart);
  return ruler(x, bottom, every(step), every(labelEach), (value) => plainText(value, writing));
}
