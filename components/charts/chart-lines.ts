import { nothing, svg, type SVGTemplateResult } from 'lit';
import { COVERAGE } from '../../src/words/format.ts';
import { bandPath, linePath } from '../marks/lines.ts';
import type { ChartBand, ChartCrossing, ChartLine } from './chart-data.ts';
import type { ChartFrame } from './chart-frame.ts';

const TOOTH = 6;

function curve({ x, y }: ChartFrame, { at, thicknessMm }: ChartLine): string {
  const places = Array.from(at, (where, k) => ({ at: where, value: thicknessMm[k]! }));
  return linePath(places, x, y);
}

function ribbon(
  { x, y }: ChartFrame,
  at: ArrayLike<number>,
  low: ArrayLike<number>,
  high: ArrayLike<number>,
): string {
  const reaches = Array.from(at, (where, k) => ({ at: where, low: low[k]!, high: high[k]! }));
  return bandPath(reaches, x, y);
}

/** Slanted teeth under a floor: what may not be scraped through. */
function teeth({ x, y }: ChartFrame, { at, thicknessMm }: ChartLine): string {
  const strokes: string[] = [];
  for (let k = 0; k + 1 < at.length; k++) {
    const [x0, x1] = [x(at[k]!), x(at[k + 1]!)];
    const [y0, y1] = [y(thicknessMm[k]!), y(thicknessMm[k + 1]!)];
    if (Number.isNaN(y0 + y1)) continue;
    const first = Math.ceil(x0 / TOOTH) * TOOTH;
    for (let where = first; where < x1; where += TOOTH) {
      const height = y0 + ((where - x0) / (x1 - x0)) * (y1 - y0);
      strokes.push(`M${where} ${height}l-4 7`);
    }
  }
  return strokes.join('');
}

/** Older lines than this look alike. */
const OLDEST = 4;

/** The stroke of a line: one path, or the two of a double line. */
export function strokeOf({ look, age = 1 }: Pick<ChartLine, 'look' | 'age'>, d: string): SVGTemplateResult {
  if (look === 'favourite') {
    return svg`<path class="line favourite" d=${d}></path><path class="line core" d=${d}></path>`;
  }
  const aged = age > 1 ? ` age-${Math.min(age, OLDEST)}` : '';
  return svg`<path class=${`line ${look}${aged}`} d=${d}></path>`;
}

/** The 95 % band of a line, under all lines. */
export function doubtBand(frame: ChartFrame, { at, thicknessMm, uMm, look }: ChartLine) {
  if (!uMm) return nothing;
  const shifted = (sign: number) => Array.from(thicknessMm, (value, k) => value + sign * COVERAGE * uMm[k]!);
  return svg`<path class=${`doubt ${look}`} d=${ribbon(frame, at, shifted(-1), shifted(1))}></path>`;
}

export function chartLine(frame: ChartFrame, given: ChartLine): SVGTemplateResult {
  const { look, readings = [] } = given;
  return svg`<g class="series">${strokeOf(given, curve(frame, given))}
    ${look === 'floor' ? svg`<path class="teeth" d=${teeth(frame, given)}></path>` : nothing}
    ${readings.map(({ at, thicknessMm }) => {
      const [x, y] = [frame.x(at), frame.y(thicknessMm)];
      return look === 'B'
        ? svg`<rect class="reading B" x=${x - 2.6} y=${y - 2.6} width="5.2" height="5.2"></rect>`
        : svg`<circle class=${`reading ${look}`} cx=${x} cy=${y} r="2.6"></circle>`;
    })}</g>`;
}

/** Several favourites: two edges with upright hatching between. */
export function favouriteBand(frame: ChartFrame, { at, lowMm, highMm }: ChartBand): SVGTemplateResult {
  const d = ribbon(frame, at, lowMm, highMm);
  return svg`<path class="band" d=${d}></path><path class="band-hatch" fill="url(#upright)" d=${d}></path>`;
}

/** Dotted lines from a crossing to both axes, its distance written at the foot. */
export function crossingMark(frame: ChartFrame, crossing: ChartCrossing, text: string, toTheRight: boolean) {
  const [x, y] = [frame.x(crossing.at), frame.y(crossing.thicknessMm)];
  const foot = frame.bottom;
  return svg`<g class="crossing"><path d=${`M${frame.x.range()[0]!} ${y}H${x}V${foot}`}></path>
    <text class=${crossing.look} x=${toTheRight ? x + 5 : x - 5} y=${foot - 14}
      text-anchor=${toTheRight ? 'start' : 'end'}>${text}</text></g>`;
}
