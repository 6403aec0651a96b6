import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { lengthsSchema, type Lengths } from '../../shared/style.ts';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import { listed } from '../../src/words/figure-words.ts';
import { stationText } from '../../src/words/format.ts';
import { readFields, renderFields, showFault, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const FIELDS: readonly Field<keyof Lengths>[] = [
  { name: 'tipMm', words: 'Tip ends at, mm', kind: 'number' },
  { name: 'heartEndMm', words: 'Heart ends at, mm', kind: 'number' },
  { name: 'scrapeEndMm', words: 'Scrape ends at, mm', kind: 'number' },
];

/** Where the tip, the heart and the scrape of one reed end: its zones are stretched to that. */
@customElement('bench-own-lengths')
export class OwnLengths extends BenchElement {
  static override styles = [
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

  private readonly library = new LibraryController(this);
  @property({ attribute: false }) reed: Reed | undefined;
  /** The pass at which the lengths are measured. */
  @property({ attribute: false }) pass: Pass | undefined;
  @state() private problem = '';

  /** Kept as they are written, once all three are there, or none. */
  private handleChange(event: Event) {
    const form = event.currentTarget as HTMLFormElement;
    const data = new FormData(form);
    const blanks = FIELDS.filter(({ name }) => String(data.get(name) ?? '').trim() === '').length;
    const typed = readFields(data, FIELDS, lengthsSchema);
    showFault(form, 'problem' in typed && blanks === 0 ? typed.name : undefined);
    this.problem = '';
    if (blanks === FIELDS.length) return this.keep(undefined);
    if (blanks > 0) return;
    const lengths = 'values' in typed ? lengthsSchema.safeParse(typed.values) : undefined;
    if (lengths?.success) this.keep(lengths.data);
    else
      this.problem =
        'problem' in typed ? typed.problem : 'Tip, heart and scrape must end one after the other.';
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
      <form @submit=${(event: Event) => event.preventDefault()} @change=${this.handleChange}>
        <div class="fields">${renderFields(FIELDS, reed.lengths, this.library.writing)}</div>
        ${problem ? html`<p class="problem" role="alert">${problem}</p>` : nothing}
      </form>
      <p class="quiet">
        Kept when all three are written. From the tip at the middle, as the reed is now; the zones are
        stretched to them. All blank: what is usual for a ${name.toLowerCase()}, ${usual} (common practice, no
        source).
      </p>
    </section>`;
  }
}
