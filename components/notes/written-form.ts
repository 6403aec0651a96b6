import { css, html, nothing } from 'lit';
import { query, state } from 'lit/decorators.js';
import { KeepWhenWritten } from '../forms/keep-when-written.ts';
import { showFault } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** What the acts under Notes share: a form, in one or more pages, that is kept as it is written. */
export abstract class WrittenForm extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    pages,
    css`
      h2 {
        font: var(--bench-font-say);
      }
    `,
  ];

  protected readonly library = new LibraryController(this);
  protected readonly keeping = new KeepWhenWritten(this, () => this.keep());
  @query('form') protected readonly form!: HTMLFormElement | null;
  @state() protected problem = '';
  @state() protected page = 0;

  /** Keeps what stands in the form, or says why it cannot be kept. */
  protected abstract keep(): void;

  /** Says what is wrong with a field, or that nothing is. */
  protected tell(fault: { readonly name: string; readonly problem: string } | undefined): void {
    this.problem = fault?.problem ?? '';
    if (this.form) showFault(this.form, fault?.name);
  }

  private handlePage(page: number) {
    this.keeping.flush();
    this.page = page;
  }

  protected renderPages(all: readonly { readonly title: string }[]) {
    return html`<div class="pages" role="group" aria-label="What is asked">
      ${all.map(
        ({ title }, page) =>
          html`<button aria-pressed=${page === this.page} @click=${() => this.handlePage(page)}>
            ${title}
          </button>`,
      )}
    </div>`;
  }

  /** @param rest What stands under the fields. */
  protected renderForm(inside: unknown, rest: unknown = nothing) {
    return html`<form
      @submit=${(event: Event) => event.preventDefault()}
      @input=${this.keeping.written}
      @change=${this.keeping.written}
    >
      <div class="fields">${inside}</div>
      ${rest}
    </form>`;
  }

  protected renderProblem() {
    const { problem } = this;
    return problem
      ? html`<p class="problem" role="alert">${problem} It is kept when it is put right.</p>`
      : nothing;
  }
}
