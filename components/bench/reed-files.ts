import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { download } from '../setup/download.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { PASS_FILES } from './pass-files.ts';

/** The fitted blades of one pass as files of open formats, and the reed's readings. */
@customElement('bench-reed-files')
export class ReedFiles extends BenchElement {
  static override styles = [controls, pages, fields, forms];

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) pass: PassFacts | undefined;
  @state() private exaggeration = 1;

  /** Fits the reed if need be, makes the file, and hands it over. */
  private async give({ extension, type, write }: (typeof PASS_FILES)[number]) {
    const { reed, pass, exaggeration } = this;
    const { store, choices } = this.library;
    if (!reed || !pass || !store) return;
    try {
      const benched = await store.models.settled(reed, store.passesOf(reed.id));
      const at = benched.passes.findIndex(({ id }) => id === pass.id);
      const content = await write({ benched, pass: at }, { exaggeration, decimal: choices.decimal });
      download(`blades-pass-${pass.index}.${extension}`, content, type);
    } catch (error) {
      store.tell(error);
    }
  }

  override render() {
    const whole = this.reed && this.library.store?.wholePassesOf(this.reed.id);
    const pass = whole?.find(({ id }) => id === this.pass?.id);
    if (!pass || pass.readings.length === 0) return nothing;
    const files = PASS_FILES.filter(
      ({ blade }) => !blade || pass.readings.some((reading) => reading.blade === blade),
    );
    return html`<section aria-label="Files of this pass">
      <h2>Files of this pass</h2>
      <label
        >Thickness in bodies<select
          @change=${(event: Event) => (this.exaggeration = Number((event.target as HTMLSelectElement).value))}
        >
          <option value="1">as it is</option>
          <option value="10">ten times as large</option>
        </select></label
      >
      <div class="acts">
        ${files.map((file) => html`<button @click=${() => this.give(file)}>${file.words}</button>`)}
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-files': ReedFiles;
  }
}
