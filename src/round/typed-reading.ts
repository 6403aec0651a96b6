import { MAX_THICKNESS_MM, MM_PER } from '../../shared/units.ts';
import { numberText, type NumberFormat } from '../words/format.ts';
import type { GaugeCount, RoundFormat } from './gauge-count.ts';

/** What was understood of a typed reading: a thickness, nothing typed, or a sentence saying why it is not taken. */
export type Typed =
  | { readonly kind: 'reading'; readonly thicknessMm: number }
  | { readonly kind: 'blank' }
  | {
      readonly kind: 'unclear';
      readonly why: string;
      /** Another count of the gauge under which it would be a reading. */
      readonly asCount?: GaugeCount;
    };

const NUMBER = /^\+?(\d*)(?:([.,])(\d*))?(mm|in|")?$/;
const SPACES = /[\s\u00a0\u2009\u202f]/g;
const MM_PER_INCH = MM_PER.thou * 1000;

/** From here on a whole number is no longer plain hundredths: 134 may be 1.34 or 0.134 mm. */
const FIRST_UNCLEAR_HUNDREDTHS = 100;

const unclear = (why: string, asCount?: GaugeCount): Typed => ({
  kind: 'unclear',
  why,
  ...(asCount && { asCount }),
});

function thickness(mm: number, text: string): Typed {
  if (mm <= 0) return unclear(`${text} is no thickness. Skip marks a place without cane.`);
  if (mm > MAX_THICKNESS_MM)
    return unclear(`${text} is more than ${MAX_THICKNESS_MM} mm: no blade is that thick.`);
  return { kind: 'reading', thicknessMm: mm };
}

function whole(value: number, text: string, { count, decimal: sign }: RoundFormat): Typed {
  if (count === 'thou') return thickness((value * MM_PER_INCH) / 1000, text);
  if (count === 'thousandths') return thickness(value / 1000, text);
  if (value < FIRST_UNCLEAR_HUNDREDTHS) return thickness(value / 100, text);
  if (value > MAX_THICKNESS_MM * 1000) return thickness(value / 100, text);
  const mm = (per: number, digits: number) => `${numberText(value / per, digits, { decimal: sign })} mm`;
  return unclear(
    `${text} may be ${mm(1000, 3)} or ${mm(100, 2)}. Type it with its ${sign}, or say that the gauge counts thousandths.`,
    'thousandths',
  );
}

/** A number with a decimal mark: millimetres below 1, the gauge's own count from 2 on, unclear between. */
function decimal(value: number, text: string, { count, decimal: sign }: RoundFormat): Typed {
  if (count === 'thou') return thickness((value < 1 ? value * 1000 : value) * MM_PER.thou, text);
  if (value < 1) return thickness(value, text);
  if (value < 2 || count === 'thousandths') {
    return unclear(
      `${text} is not clear: as millimetres it is too thick for a blade. Type the ${count} without a ${sign}.`,
    );
  }
  return thickness(value / 100, text);
}

/**
 * Understands a reading as makers type it. With a gauge that counts hundredths, `46`, `.46`, `0.46` and `0,46` are all
 * 0.46 mm, and `46.5` is 0.465 mm; `467` is refused with the two things it may mean, never guessed.
 *
 * @param text As typed or as a gauge sent it; spaces, a plus sign and a closing `mm`, `in` or `"` are allowed.
 * @param sign The maker's decimal sign, as it stands in what is said; either is understood.
 * @returns A thickness in mm within (0, 2], or why there is none.
 */
export function typedReading(
  text: string,
  count: GaugeCount,
  sign: NumberFormat['decimal'] = 'point',
): Typed {
  const plain = text.replace(SPACES, '').toLowerCase();
  if (plain === '') return { kind: 'blank' };
  if (/^[-\u2212]/.test(plain)) return unclear(`${plain} is negative. Zero the gauge, then read again.`);
  const match = NUMBER.exec(plain);
  const digits = match && `${match[1] || '0'}.${match[3] || '0'}`;
  if (!match || !digits || (match[1] === '' && !match[3])) {
    return unclear(
      `\u201c${text.trim()}\u201d is not a number. Type digits, such as 46 or ${numberText(0.46, 2, { decimal: sign })}.`,
    );
  }
  const value = Number(digits);
  const [, , mark, , unit] = match;
  if (unit === 'mm') return thickness(value, plain);
  if (unit) return thickness(value * MM_PER_INCH, plain);
  const writing = { count, decimal: sign };
  return mark ? decimal(value, plain, writing) : whole(value, plain, writing);
}
