import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { retirementSchema, type Reed } from '../../shared/reed.ts';
import { textIn } from '../form-fields.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

const CAUSES = retirementSchema.shape.cause.options;

/** Ends a reed, with a cause and one sentence for the next; or brings it back. */
@customElement('bench-retire-form')
export class RetireForm extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    css`
      p {
        margin: 0 0 var(--bench-space-2);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) reed: Reed | undefined;

  private async handleRetire(event: SubmitEvent) {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const { reed } = this;
    const { store } = this.library;
    const cause = textIn(form, 'cause');
    this.problem =
      cause === undefined ? 'Choose what ended it: the bench learns how long reeds last from that.' : '';
    if (this.problem || !reed || !store) return;
    const lesson = textIn(form, 'lesson');
    const retirement = {
      on: store.ledger.now().slice(0, 10),
      cause: cause as (typeof CAUSES)[number],
      ...(lesson !== undefined && { lesson }),
    };
    const { slot: _free, ...rest } = reed;
    await store.keep([{ ...rest, state: 'retired', retirement }], `retiring ${reed.label}`);
  }

  private handleBack() {
    const { reed } = this;
    if (!reed) return;
    const { retirement: _ended, ...rest } = reed;
    void this.library.store?.keep([{ ...rest, state: 'resting' }], `bringing ${reed.label} back`);
  }

  override render() {
    const { reed } = this;
    if (!reed) return nothing;
    if (reed.state === 'retired') {
      const { retirement } = reed;
      return html`<p>
          ${retirement ? `Retired on ${retirement.on}: ${retirement.cause}.` : 'Retired.'}
          ${retirement?.lesson ?? ''}
        </p>
        <button @click=${this.handleBack}>Bring back</button>`;
    }
    return html`<form @submit=${this.handleRetire}>
      <label
        >What ended it<select name="cause">
          <option value="">–</option>
          ${CAUSES.map((cause) => html`<option>${cause}</option>`)}
        </select></label
      >
      <label class="wide"
        >One sentence: what to do differently<input name="lesson" maxlength="400" autocomplete="off"
      /></label>
      <button>Retire</button>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
    </form>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-retire-form': RetireForm;
  }
}
