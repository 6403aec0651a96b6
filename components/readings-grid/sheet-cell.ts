import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';

/** What a cell of the sheet shows. */
export interface CellView {
  readonly id: string;
  readonly text: string;
  /** Its name for a screen reader. */
  readonly name: string;
  readonly mark: string;
  /** What was read before, paler, where it is blank. */
  readonly placeholder?: string;
  readonly isOdd: boolean;
  readonly isActive: boolean;
  readonly isWrong: boolean;
  /** Something is being typed into it. */
  readonly isDraft: boolean;
}

/** What a cell's keys lead to. */
export interface CellKeys {
  readonly focus: () => void;
  readonly input: (text: string) => void;
  readonly change: (text: string) => void;
  readonly key: (event: KeyboardEvent) => void;
  readonly paste: (event: ClipboardEvent) => void;
}

const fieldOf = (event: Event) => event.target as HTMLInputElement;

/** A station's field and its small sign. */
export function sheetCell(view: CellView, keys: CellKeys) {
  const { id, text, name, mark, placeholder, isOdd, isActive, isWrong, isDraft } = view;
  return html`<input
      data-cell=${id}
      ?data-settled=${!isDraft}
      type="text"
      inputmode="decimal"
      enterkeyhint="next"
      autocomplete="off"
      tabindex=${isActive ? 0 : -1}
      aria-label=${name}
      aria-invalid=${isWrong ? 'true' : 'false'}
      placeholder=${placeholder ?? nothing}
      .value=${live(text)}
      @focus=${keys.focus}
      @click=${(event: Event) => isDraft || fieldOf(event).select()}
      @input=${(event: Event) => keys.input(fieldOf(event).value)}
      @change=${(event: Event) => keys.change(fieldOf(event).value)}
      @keydown=${keys.key}
      @paste=${keys.paste}
    />${isOdd || mark ? html`<span class=${isOdd ? 'mark odd' : 'mark'} aria-hidden="true">${isOdd ? '\u25c7' : ''}${mark}</span>` : nothing}`;
}
