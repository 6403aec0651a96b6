import { svg, type SVGTemplateResult } from 'lit';
import { dayOf } from '../../shared/moment.ts';
import { shortDay } from '../../src/words/day-words.ts';
import type { Scale } from './marks.ts';

/** Hairlines at values, with their numbers before them. */
export function levels(
  y: Scale,
  [left, right]: readonly [number, number],
  values: readonly number[],
  text: (value: number) => string,
): SVGTemplateResult {
  return svg`<g class="axis" aria-hidden="true">${values.map(
    (value) => svg`<path class="hair" d=${`M${left} ${y(value)}H${right}`}></path>
      <text x=${left - 7} y=${y(value)} text-anchor="end">${text(value)}</text>`,
  )}</g>`;
}

/** A ruler at the foot: a tick at each of the fine values, a longer one with its words at each of the coarse ones. */
export function ruler(
  x: Scale,
  foot: number,
  fine: readonly number[],
  coarse: readonly number[],
  text: (value: number) => string,
): SVGTemplateResult {
  const [left, right] = x.range() as [number, number];
  const ticks = (values: readonly number[], length: number) =>
    values.map((value) => `M${x(value).toFixed(1)} ${foot}v${length}`).join('');
  return svg`<g class="axis" aria-hidden="true">
    <path class="rule" d=${`M${left} ${foot}H${right}${ticks(fine, 4)}${ticks(coarse, 8)}`}></path>
    ${coarse.map((value) => svg`<text x=${x(value)} y=${foot + 18} text-anchor="middle">${text(value)}</text>`)}</g>`;
}

const LEAST_APART_PX = 68;
const WEEK = 7;
/** 5 January 1970 was a Monday. */
const FIRST_MONDAY = 4;

/** Mondays between two days, as many as have room for their words. */
export function weeksOf(x: Scale): number[] {
  const [from, to] = x.domain() as [number, number];
  const step = WEEK * Math.max(1, Math.ceil(LEAST_APART_PX / (x(WEEK) - x(0))));
  const first = Math.ceil((from - FIRST_MONDAY) / WEEK) * WEEK + FIRST_MONDAY;
  return Array.from({ length: Math.max(0, Math.floor((to - first) / step) + 1) }, (_, k) => first + k * step);
}

/** A ruler of days, Mondays written. Days count as in shared/moment.ts. */
export function dayRuler(x: Scale, foot: number): SVGTemplateResult {
  const [from, to] = x.domain() as [number, number];
  const first = Math.ceil(from);
  const days = Array.from({ length: Math.floor(to) - first + 1 }, (_, k) => first + k);
  return ruler(x, foot, days, weeksOf(x), (day) => shortDay(dayOf(day)));
}
