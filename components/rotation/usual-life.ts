import { svg, type SVGTemplateResult } from 'lit';
import { mark } from '../marks/marks.ts';
import type { LivesFrame } from './lives-frame.ts';

/** A usual life, days before today: tied and begun, its passes, its playings. Common practice, no source. */
const USUAL_LIFE = { tied: 40, begun: 24, passes: [24, 22, 19], played: [14, 10, 6, 2] } as const;

/** A life as it usually goes, pale and marked as an example, where no reed lives yet. */
export function usualLife({ x, rowAt, narrow }: LivesFrame, today: number): SVGTemplateResult {
  const y = rowAt(0);
  const left = x.range()[0]!;
  const at = (ago: number) => Math.max(left, x(today - ago));
  const { tied, begun, passes, played } = USUAL_LIFE;
  const words = narrow
    ? 'An example'
    : 'An example, no reed of yours: a line a reed, from the day on which it is tied.';
  return svg`<g class="usual-life">
      <path class="blank" d=${`M${at(tied)} ${y}H${at(begun)}`}></path>
      <path class="life" d=${`M${at(begun)} ${y}H${x(today)}`}></path>
      ${passes.filter((ago) => x(today - ago) > left).map((ago) => mark('read', at(ago), y - 10))}
      ${played.map((ago) => svg`<rect class="play" x=${at(ago) - 5} y=${y - 7} width="10" height="14"></rect>`)}</g>
    <text class="say haloed" x=${left} y=${y - 30}>${words}</text>`;
}
