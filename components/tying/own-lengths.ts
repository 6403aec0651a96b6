import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { lengthsSchema, type Lengths } from '../../shared/style.ts';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import { listed } from '../../src/words/figure-words.ts';
import { stationText } from '../../src/words/format.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { fields, forms } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

const FIELDS: readonly Field<keyof Lengths>[] = [
  { name: 'tipMm', words: 'Tip ends at, mm', kind: 'number' },
  { name: 'heartEndMm', words: 'Heart ends at, mm', kind: 'number' },
  { name: 'scrapeEndMm', words: 'Scrape ends at, mm', kind: 'number' },
];

/** Where the tip, the heart and the scrape of one reed end: its zones are stretched to that. */
@customElement('bench-own-lengths')
export class OwnLengths extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    fields,
    css`
      h2 {
        margin: 0 0 var(--bench-space-3);
        font: var(--bench-font-head);
      }
      .quiet {
        margin: var(--bench-space-2) 0 0;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @property({ attribute: false }) reed: Reed | undefined;
  /** The pass at which the lengths are measured. */
  @property({ attribute: false }) pass: Pass | undefined;
  @state() private problem = '';

  private handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const data = new FormData(form);
    const isBlank = FIELDS.every(({ name }) => String(data.get(name) ?? '').trim() === '');
    if (isBlank) return this.keep(undefined);
    const typed = readFields(data, FIELDS, lengthsSchema);
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(form, 'problem' in typed ? typed.name : undefined);
    if ('problem' in typed) return;
    const lengths = lengthsSchema.safeParse(typed.values);
    if (lengths.success) this.keep(lengths.data);
    else this.problem = 'Tip, heart and scrape must end one after the other.';
  }

  private keep(lengths: Lengths | undefined) {
    const { reed, pass } = this;
    const { store } = this.library;
    if (!store || !reed) return;
    this.problem = '';
    const forOverallLengthMm = lengths && pass?.overallLengthMm;
    void store.keepLatest(
      () => [{ ...(store.reed(reed.id) ?? reed), lengths, forOverallLengthMm }],
      `lengths of ${reed.label}`,
    );
  }

  override render() {
    const { reed, problem } = this;
    if (!reed) return nothing;
    const { name, lengths } = startingStyle(reed.styleId);
    const usual = listed(FIELDS.map((field) => stationText(lengths[field.name], this.library.writing)));
    return html`<section>
      <h2>Tip, heart and scrape</h2>
      <form @submit=${this.handleKeep}>
        <div class="fields">${renderFields(FIELDS, reed.lengths, this.library.writing)}</div>
        ${problem ? html`<p class="problem" role="alert">${problem}</p>` : nothing}
        <div class="acts"><button>Keep the lengths</button></div>
      </form>
      <p class="quiet">
        From the tip at the middle, as the reed is now; the zones are stretched to them. All blank: what is
        usual for a ${name.toLowerCase()}, ${usual} (common practice, no source).
      </p>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-own-lengths': OwnLengths;
  }
}
