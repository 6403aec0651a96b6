import { html, nothing, svg } from 'lit';
import type { Reed } from '../../shared/reed.ts';
import { halfWidthAt } from '../../src/blade/planform.ts';
import { distanceText, type NumberFormat } from '../../src/words/format.ts';

const WIDTH = 640;
const MARGIN = 24;
const AXIS = 66;
/** Widths are drawn larger than lengths, so that a flare is seen. */
const WIDTH_FACTOR = 1.6;
/** Half the cork's and the thread's width, mm: drawn, not measured. Common practice, no source. */
const CORK_HALF_MM = 3.4;
const THREAD_HALF_MM = 2.6;
const THREAD_MM = 11;
/** Where nothing was written yet. Common practice, no source. */
const USUAL = { overallMm: 72, threadMm: 47 };
const USUAL_TIP_HALF_MM = 3.5;

/** The reed as it was tied, lying on its side 1 with A towards you, measured by what was written; dashed where nothing was. */
export function tiedDrawing({ tie, staple, planform }: Reed, writing: NumberFormat) {
  const { overallMm = USUAL.overallMm, threadMm = USUAL.threadMm } = tie ?? {};
  if (threadMm >= overallMm) return nothing;
  const perMm = (WIDTH - 2 * MARGIN) / overallMm;
  const x = (fromCorkMm: number) => MARGIN + fromCorkMm * perMm;
  const half = (mm: number) => mm * perMm * WIDTH_FACTOR * 0.5;
  const bladeHalf = (fromCorkMm: number) =>
    planform
      ? halfWidthAt(planform, fromCorkMm)
      : THREAD_HALF_MM +
        ((USUAL_TIP_HALF_MM - THREAD_HALF_MM) * (fromCorkMm - threadMm)) / (overallMm - threadMm);
  const along = Array.from({ length: 13 }, (_, k) => threadMm + ((overallMm - threadMm) * k) / 12);
  const edge = (side: 1 | -1) => along.map((at) => `${x(at)} ${AXIS + side * half(bladeHalf(at))}`);
  const winding = Array.from({ length: 9 }, (_, k) => x(threadMm - THREAD_MM + (THREAD_MM * (k + 0.5)) / 9));
  const size = (mm: number | undefined) => (mm === undefined ? '' : distanceText(mm, writing));
  const bladeMm = tie?.overallMm && tie.threadMm ? overallMm - threadMm : undefined;
  return html`<svg
    class=${tie?.overallMm && tie.threadMm ? 'tied' : 'tied open'}
    viewBox="0 0 ${WIDTH} 124"
    role="img"
    aria-label=${`The reed as tied: ${size(tie?.overallMm) || 'no overall length'}, thread to ${size(tie?.threadMm) || 'no height'}${staple?.lengthMm ? `, staple ${size(staple.lengthMm)}` : ''}`}
  >
    <path
      class="staple"
      d=${`M${x(0)} ${AXIS - half(CORK_HALF_MM)}H${x(threadMm * 0.5)}L${x(threadMm - THREAD_MM)} ${AXIS - half(THREAD_HALF_MM)}V${AXIS + half(THREAD_HALF_MM)}L${x(threadMm * 0.5)} ${AXIS + half(CORK_HALF_MM)}H${x(0)}Z`}
    ></path>
    <path class="cane" d=${`M${edge(-1).join('L')}L${edge(1).reverse().join('L')}Z`}></path>
    <path
      class="thread"
      d=${winding.map((at) => `M${at} ${AXIS - half(THREAD_HALF_MM) - 2}v${2 * half(THREAD_HALF_MM) + 4}`).join('')}
    ></path>
    <circle cx=${x(threadMm - 2.5)} cy=${AXIS - half(THREAD_HALF_MM) + 5} r="4"></circle>
    <text x=${x(threadMm - 2.5)} y=${AXIS - half(THREAD_HALF_MM) - 8} text-anchor="middle">side 1</text>
    <text x=${x(threadMm * 0.25)} y=${AXIS + 4} text-anchor="middle">A towards you</text>
    ${measure(x(0), x(overallMm), 20, size(tie?.overallMm))}
    ${measure(x(0), x(threadMm), 118, size(tie?.threadMm))}
    ${measure(x(threadMm), x(overallMm), 118, size(bladeMm))}
  </svg>`;
}

function measure(from: number, to: number, y: number, text: string) {
  if (text === '') return nothing;
  return svg`<path d=${`M${from} ${y - 5}v10M${to} ${y - 5}v10M${from} ${y}H${to}`}></path>
    <text class="size" x=${(from + to) / 2} y=${y - 8} text-anchor="middle">${text}</text>`;
}
