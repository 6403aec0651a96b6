import { html, nothing, svg } from 'lit';
import '../picture/picture.ts';

const WIDTH = 420;
const HEIGHT = 72;
const MIDDLE = 34;
const MARGIN = 14;
/** Half the picture's height is never less than this, mm. */
const LEAST_MM = 0.02;

/** Zeros of the last checks on one strip, oldest first; the table beside it has the numbers. */
export function checkStrip(zerosMm: readonly number[]) {
  if (zerosMm.length < 2) return nothing;
  const most = Math.max(LEAST_MM, ...zerosMm.map(Math.abs));
  const x = (i: number) => MARGIN + ((WIDTH - 2 * MARGIN) * i) / (zerosMm.length - 1);
  const y = (mm: number) => MIDDLE - 26 * (mm / most);
  const words = zerosMm.map((mm) => `${(mm * 1000).toFixed(0)}`).join(', ');
  return html`<bench-picture
    caption="Zeros of the last checks, oldest first; the highest is ${(most * 1000).toFixed(0)} thousandths of a mm"
    file-name="zeros of the gauge"
    ><svg
      part="picture"
      viewBox="0 0 ${WIDTH} ${HEIGHT}"
      role="img"
      aria-label="Zeros, thousandths of a mm: ${words}"
    >
      <path class="axis" d="M0 ${MIDDLE}H${WIDTH}" />
      ${zerosMm.map(
        (mm, i) => svg`<path class="whisker" d="M${x(i)} ${MIDDLE}V${y(mm)}" />
        <circle class="dot" cx=${x(i)} cy=${y(mm)} r="4.5" />`,
      )}
    </svg></bench-picture
  >`;
}
