import { css, html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { STARTING_STYLES } from '../../src/blade/starting-styles.ts';
import { hiddenProblem } from '../form-fields.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { boxes, dialogs } from '../theme/forms.styles.ts';

/** Asks for the label and style of a new reed, and keeps it as a blank. */
@customElement('bench-new-reed')
export class NewReed extends BenchElement {
  static override styles = [
    controls,
    boxes,
    dialogs,
    css`
      dialog {
        width: min(420px, 92vw);
      }
      form,
      label {
        display: grid;
        gap: var(--bench-space-2);
      }
      form {
        gap: var(--bench-space-4);
      }
      label {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .problem {
        margin: 0;
        color: var(--bench-stop);
      }
      .acts {
        display: flex;
        gap: var(--bench-space-3);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @query('dialog') private readonly dialog!: HTMLDialogElement;
  @state() private problem = '';

  show(): void {
    this.problem = '';
    this.dialog.showModal();
  }

  private handleClose() {
    this.dialog.close();
  }

  private async handleSubmit(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const data = new FormData(form);
    const label = String(data.get('label') ?? '').trim();
    const store = this.library.store!;
    this.problem = label === '' ? 'A reed needs a label: it stands on its thread.' : '';
    if (store.reeds.some((reed) => reed.label === label)) {
      this.problem = `There is a ${label} already. Labels are never used twice.`;
    }
    this.problem ||= hiddenProblem(form.querySelector<HTMLInputElement>('[name=label]')!);
    if (this.problem) return;
    const id = store.ledger.newId();
    const styleId = String(data.get('style'));
    if (
      await store.keep([{ kind: 'reed', id, label, styleId, state: 'blank', tags: [] }], `new reed ${label}`)
    ) {
      form.reset();
      this.dialog.close();
      location.hash = hrefOf({ at: 'bench', reedId: id, question: 'there' });
    } else this.problem = store.trouble?.words ?? '';
  }

  override render() {
    return html`<dialog aria-labelledby="title">
      <h2 id="title">New reed</h2>
      <form @submit=${this.handleSubmit}>
        <label>Label<input name="label" autofocus maxlength="80" autocomplete="off" /></label>
        <label
          >Style<select name="style">
            ${STARTING_STYLES.map(({ key, name }) => html`<option value=${key}>${name}</option>`)}
          </select></label
        >
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button>Keep</button><button type="button" @click=${this.handleClose}>Leave it</button>
        </div>
      </form>
    </dialog>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-new-reed': NewReed;
  }
}
