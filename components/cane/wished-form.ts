import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { wishedGougeSchema, type WishedGouge } from '../../shared/settings.ts';
import { STARTING_GOUGE } from '../../src/cane/wished-gouge.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const FIELDS: readonly Field<keyof WishedGouge>[] = [
  { name: 'centreMm', words: 'Centre, mm', kind: 'number' },
  { name: 'sideMm', words: 'Sides, mm', kind: 'number' },
  { name: 'sideArcMm', words: 'Sides are read at, mm from the middle', kind: 'number' },
  { name: 'mostSideDifferenceMm', words: 'Most the sides may differ, mm', kind: 'number' },
];

/** The gouge that the maker wishes for, beside which every piece is held. */
@customElement('bench-wished-gouge')
export class WishedGougeForm extends BenchElement {
  static override styles = [controls, forms, fields, pages];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const typed = readFields(new FormData(form), FIELDS, wishedGougeSchema);
    const whole = 'values' in typed ? wishedGougeSchema.safeParse(typed.values) : undefined;
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(form, 'name' in typed ? typed.name : undefined);
    if (whole?.success) await this.library.store!.choose({ gouge: whole.data });
  }

  override render() {
    const wished = this.library.choices.gouge;
    return html`<details>
      <summary>The gouge you wish for</summary>
      <form @submit=${this.handleKeep}>
        <div class="fields">${renderFields(FIELDS, wished ?? STARTING_GOUGE, this.library.writing)}</div>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button class="main">Keep</button>
          ${wished ? nothing : html`<span class="quiet">Starting values: common practice, for you to change.</span>`}
        </div>
      </form>
    </details>`;
  }
}
