import { html, svg } from 'lit';
import type { Settings } from '../../shared/settings.ts';
import type { PadKey } from '../../src/round/pad-keys.ts';

/** A key of the round that is not a digit. */
export interface SideKey {
  readonly words: string;
  readonly under?: string;
  readonly press: () => void;
  readonly disabled?: boolean;
  readonly main?: boolean;
}

const ROWS: Readonly<Record<NonNullable<Settings['digits']>, readonly (readonly string[])[]>> = {
  telephone: [
    ['1', '2', '3'],
    ['4', '5', '6'],
    ['7', '8', '9'],
  ],
  'number-pad': [
    ['7', '8', '9'],
    ['4', '5', '6'],
    ['1', '2', '3'],
  ],
};

/** Keeps the keys where readings go, so that a gauge that types is still heard after a touch. */
const stayFocused = (event: MouseEvent) => event.preventDefault();

/** A large key with its words. */
export function bigKey({ words, under, press, disabled, main }: SideKey) {
  return html`<button class=${main ? 'main-button' : ''} ?disabled=${disabled} @click=${press}>
    <strong>${words}</strong>${under ? html`<span>${under}</span>` : ''}
  </button>`;
}

function digitKey(tap: (key: PadKey) => void, digit: string) {
  return html`<button class="digit" @click=${() => tap({ kind: 'digit', digit })}>${digit}</button>`;
}

const rubOutSign = svg`<path d="M8 2h26v24H8L0 14Z M16 9l10 10m0-10L16 19" />`;

/**
 * The round's own keys, for a screen that is touched: three columns of digits, and a fourth of four other keys.
 *
 * @param mark The maker's decimal sign.
 */
export function pocketKeys(
  digits: NonNullable<Settings['digits']>,
  mark: '.' | ',',
  side: readonly [SideKey, SideKey, SideKey, SideKey],
  tap: (key: PadKey) => void,
) {
  const [back, skip, again, take] = side;
  const rows = ROWS[digits].map((row) => row.map((digit) => digitKey(tap, digit)));
  return html`<div class="pad" role="group" aria-label="Keys" @mousedown=${stayFocused}>
    ${rows[0]} ${bigKey(back)} ${rows[1]} ${bigKey(skip)} ${rows[2]} ${bigKey(again)}
    <button class="digit" aria-label="Decimal sign" @click=${() => tap({ kind: 'mark' })}>${mark}</button>
    ${digitKey(tap, '0')}
    <button class="digit" aria-label="Rub out" @click=${() => tap({ kind: 'rub-out' })}>
      <svg class="rub-out" viewBox="-1 0 36 28" aria-hidden="true">${rubOutSign}</svg>
    </button>
    ${bigKey(take)}
  </div>`;
}
