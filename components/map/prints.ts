import { html, type TemplateResult } from 'lit';

/** Ways in which a reed lies on the plate. */
export type Print = 'opened' | 'staple' | 'flat';

export const STANCES: readonly Print[] = ['opened', 'staple', 'flat'];

const PRINT_WORDS: Readonly<Record<Print, string>> = {
  opened: 'Opened',
  staple: 'On the staple',
  flat: 'Flat map',
};

/** Another print was chosen. */
export class PrintChooseEvent extends Event {
  readonly print: Print;

  constructor(print: Print) {
    super('bench-print-choose');
    this.print = print;
  }
}

/** How the reed lies, to be chosen. */
export function printChoice(chosen: Print, choose: (print: Print) => void): TemplateResult {
  return html`<div class="choice" slot="choice" role="group" aria-label="How the reed lies">
    ${STANCES.map(
      (print) =>
        html`<button aria-pressed=${print === chosen} @click=${() => choose(print)}>
          ${PRINT_WORDS[print]}
        </button>`,
    )}
  </div>`;
}
