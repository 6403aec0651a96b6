import { html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Shape } from '../../shared/cane.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { hiddenProblem, textIn } from '../form-fields.ts';
import { fields, forms } from '../theme/forms.styles.ts';

/** A new shape begins with a usual outline, for the maker to overwrite. Common practice, no source. */
const STARTING_WIDTHS: Shape['widths'] = [
  [0, 7],
  [2, 6.96],
  [5, 6.74],
  [8, 6.36],
  [11, 5.93],
  [15, 5.39],
  [19, 4.94],
  [23, 4.65],
  [26, 4.55],
].map(([fromFoldMm, widthMm]) => ({ fromFoldMm: fromFoldMm!, widthMm: widthMm! }));

/** Asks for the name of a new lot or shape, keeps it and shows it. */
@customElement('bench-new-cane')
export class NewCane extends BenchElement {
  static override styles = [controls, forms, fields];

  private readonly library = new LibraryController(this);
  @query('dialog') private readonly dialog!: HTMLDialogElement;
  @state() private making: 'lot' | 'shape' = 'lot';
  @state() private problem = '';

  show(kind: 'lot' | 'shape'): void {
    this.making = kind;
    this.problem = '';
    this.dialog.querySelector('form')!.reset();
    this.dialog.showModal();
  }

  private handleLeave() {
    this.dialog.close();
  }

  private async handleMake(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const name = textIn(new FormData(form), 'name') ?? '';
    const store = this.library.store!;
    const { live } = store.snapshot;
    const id = store.ledger.newId();
    const isLot = this.making === 'lot';
    const taken = isLot
      ? live.lot.some(({ code }) => code === name)
      : live.shape.some((one) => one.name === name);
    const most = isLot ? 8 : 80;
    if (name === '' || taken || name.length > most) {
      this.problem = taken ? `There is a ${name} already.` : `Write a name of 1 to ${most} letters.`;
      return;
    }
    this.problem = hiddenProblem(form.querySelector<HTMLInputElement>('[name=name]')!);
    if (this.problem) return;
    const kept = isLot
      ? await store.keep([{ kind: 'lot', id, code: name }], `new lot ${name}`)
      : await store.keep([{ kind: 'shape', id, name, widths: STARTING_WIDTHS }], `new shape ${name}`);
    if (!kept) return;
    this.dialog.close();
    location.hash = hrefOf({ at: 'cane', shown: { kind: this.making, id } });
  }

  override render() {
    const isLot = this.making === 'lot';
    return html`<dialog aria-labelledby="title">
      <h2 id="title">New ${this.making}</h2>
      <form @submit=${this.handleMake}>
        <label
          >${isLot ? 'Letters that begin the labels of its reeds' : 'Name of the shape'}<input
            name="name"
            autofocus
            autocomplete="off"
        /></label>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button class="main">Keep</button><button type="button" @click=${this.handleLeave}>Leave it</button>
        </div>
      </form>
    </dialog>`;
  }
}
