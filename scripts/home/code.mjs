// An address as a code to scan, in the letters of a terminal. Source: ISO/IEC 18004, by the package qrcode-generator.
import qrcode from 'qrcode-generator';

const MARGIN = 4;
const HALVES = ['█', '▀', '▄', ' '];
/** White on black whatever the terminal's own colours are, and back. Source: ECMA-48, 8.3.117. */
const [PLAIN, BACK] = ['\u001b[40;97m', '\u001b[0m'];

/** @param {string} text Two rows of the code a line; its dark is the terminal's ground, so that it is light around. */
export function codeOf(text) {
  const code = qrcode(0, 'M');
  code.addData(text);
  code.make();
  const count = code.getModuleCount();
  const isDark = (row, column) =>
    row >= 0 && row < count && column >= 0 && column < count && code.isDark(row, column);
  const places = Array.from({ length: count + 2 * MARGIN }, (_, i) => i - MARGIN);
  const rows = places.filter((_, i) => i % 2 === 0);
  return rows
    .map(
      (row) =>
        PLAIN +
        places.map((at) => HALVES[2 * Number(isDark(row, at)) + Number(isDark(row + 1, at))]).join('') +
        BACK,
    )
    .join('\n');
}
