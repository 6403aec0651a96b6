import { extent, ticks } from 'd3-array';
import { scaleLinear, type ScaleLinear } from 'd3-scale';
import { svg, type SVGTemplateResult } from 'lit';
import { MM_PER } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { plainText } from '../../src/words/format.ts';

const SIZES = { usual: { width: 384, height: 204 }, narrow: { width: 216, height: 196 } };
const MARGIN = { top: 10, right: 10, bottom: 26, left: 30 };

type Scale = ScaleLinear<number, number>;

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

/** Horizontal hairlines at whole figures of the maker's unit, with their labels. */
export function thicknessAxis({ y, x }: ChartFrame, writing: NumberFormat): SVGTemplateResult {
  const [left, right] = x.range() as [number, number];
  const most = y.domain()[1]! / MM_PER[writing.unit];
  const values = ticks(0, most, 6).filter((value) => value > 0);
  return svg`<g class="axis" aria-hidden="true">${values.map((value) => {
    const height = y(value * MM_PER[writing.unit]);
    return svg`<path class="hair" d=${`M${left} ${height}H${right}`}></path>
      <text x=${left - 6} y=${height} text-anchor="end">${plainText(value, writing)}</text>`;
  })}</g>`;
}

/** A ruler along the bottom: a tick each step, longer and labelled each five. */
export function distanceAxis(
  { x, bottom }: ChartFrame,
  { step, labelEach }: { readonly step: number; readonly labelEach: number },
  writing: Pick<NumberFormat, 'decimal'>,
): SVGTemplateResult {
  const [from, to] = x.domain() as [number, number];
  const [left, right] = x.range() as [number, number];
  const count = Math.floor((to - from) / step + 1e-9);
  const values = Array.from({ length: count + 1 }, (_, k) => Math.ceil(from / step - 1e-9) * step + k * step);
  const isLabelled = (value: number) => Math.abs(value / labelEach - Math.round(value / labelEach)) < 1e-6;
  const path = values
    .filter((value) => value <= to + 1e-9)
    .map((value) => `M${x(value)} ${bottom}v${isLabelled(value) ? 6 : 3}`)
    .join('');
  return svg`<g class="axis" aria-hidden="true"><path class="rule" d=${`M${left} ${bottom}H${right}${path}`}></path>
    ${values
      .filter(isLabelled)
      .map(
        (value) =>
          svg`<text x=${x(value)} y=${bottom + 16} text-anchor="middle">${plainText(value, writing)}</text>`,
      )}</g>`;
}
