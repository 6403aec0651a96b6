/** Ways in which a reed lies on the plate. */
export type Print = 'opened' | 'staple' | 'flat';

export const STANCES: readonly Print[] = ['opened', 'staple', 'flat'];

export const PRINT_WORDS: Readonly<Record<Print, string>> = {
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

declare global {
  interface HTMLElementEventMap {
    'bench-print-choose': PrintChooseEvent;
  }
}
