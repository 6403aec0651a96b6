import { html, svg } from 'lit';
import type { Gauge } from '../../shared/gauge.ts';
import { calibrationLine } from '../../src/gauge/calibration.ts';
import { predict } from '../../src/gauge/straight-line.ts';
import { COVERAGE, numberText, type Writing } from '../../src/words/format.ts';
import '../picture/picture.ts';

type Known = Gauge['checks'][number]['known'];

type Decimal = Pick<Writing, 'decimal'>;
/** The picture is never finer than this, mm: less is the display's own step. */
const LEAST_MM = 0.01;

/** The line through known thicknesses in a sentence, and a picture of what it leaves over. */
export function lineAndRest(known: Known, stepMm: number, sdMm: number, decimal: Decimal) {
  const line = calibrationLine({ takenAt: '', known: [...known] }, stepMm, sdMm);
  if (!line) return html`<p class="quiet">Two different thicknesses make a line.</p>`;
  const percent = numberText((line.slope - 1) * 100, 1, decimal);
  const doubt = numberText(COVERAGE * line.uSlope * 100, 1, decimal);
  const left = known.map(({ nominalMm, shownMm }) => ({
    at: nominalMm,
    leftMm: shownMm.reduce((sum, mm) => sum + mm, 0) / shownMm.length - predict(line, nominalMm).value,
  }));
  return html`<p>The span is off by ${percent} ±${doubt} % (95 %).</p>
    ${leftOver(left, decimal)}`;
}

function leftOver(left: readonly { at: number; leftMm: number }[], decimal: Decimal) {
  const most = Math.max(LEAST_MM, ...left.map(({ leftMm }) => Math.abs(leftMm)));
  const farthest = Math.max(...left.map(({ at }) => at));
  const x = (mm: number) => 30 + 360 * (mm / farthest);
  const y = (mm: number) => 60 - 44 * (mm / most);
  const words = left
    .map(
      ({ at, leftMm }) =>
        `${numberText(at, 2, decimal)} mm: ${numberText(leftMm * 1000, 1, decimal)} thousandths`,
    )
    .join(', ');
  return html`<bench-picture
    caption="Left over from the line through known thicknesses, thousandths of a mm at mm"
    file-name="left over from the gauge's line"
    ><svg part="picture" viewBox="0 0 420 130" role="img" aria-label="Left over from the line at ${words}">
      <path class="axis" d="M30 60H410" />
      ${left.map(
        ({ at, leftMm }) => svg`<path class="whisker" d="M${x(at)} 60V${y(leftMm)}" />
        <circle class="dot" cx=${x(at)} cy=${y(leftMm)} r="4.5" />
        <text x=${x(at)} y="122" text-anchor="middle">${numberText(at, 2, decimal)}</text>`,
      )}
      <text x="30" y="12">left over, most ${(most * 1000).toFixed(0)} thousandths of a mm</text>
    </svg></bench-picture
  >`;
}
