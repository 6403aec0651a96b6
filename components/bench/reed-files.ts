import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { download } from '../setup/download.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';

type Made = readonly [extension: string, content: string | Uint8Array, type: string];
/** The points of an areal file lie this far apart. */
const STEP_MM = 0.1;

/** The fitted blades of one pass as files of open formats, and the reed's readings. */
@customElement('bench-reed-files')
export class ReedFiles extends LitElement {
  static override styles = [base, controls, pages, fields, forms];

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) pass: PassFacts | undefined;
  @state() private exaggeration = 1;

  /** Fits the reed if need be, makes the file, and hands it over. */
  private async give(make: (reed: ReedAtPass) => Promise<Made>) {
    const { reed, pass } = this;
    const { store } = this.library;
    if (!reed || !pass || !store) return;
    try {
      const benched = await store.models.settled(reed, store.passesOf(reed.id));
      const at = benched.passes.findIndex(({ id }) => id === pass.id);
      const [extension, content, type] = await make({ benched, pass: at });
      download(`blades-pass-${pass.index}.${extension}`, content, type);
    } catch (error) {
      store.tell(error);
    }
  }

  private handleGlb() {
    return this.give(async (reed) => {
      const [{ bladeSolids }, { writeGlb }] = await Promise.all([
        import('../../src/answers/surface-files.ts'),
        import('../../src/exchange/surfaces/glb.ts'),
      ]);
      return ['glb', writeGlb(bladeSolids(reed, this.exaggeration)), 'model/gltf-binary'];
    });
  }

  private handleStl() {
    return this.give(async (reed) => {
      const [{ bladeSolids }, { writeStl }] = await Promise.all([
        import('../../src/answers/surface-files.ts'),
        import('../../src/exchange/surfaces/stl.ts'),
      ]);
      return ['stl', writeStl(bladeSolids(reed, this.exaggeration).map(({ solid }) => solid)), 'model/stl'];
    });
  }

  private handleAreal(blade: Blade) {
    return this.give(async (reed) => {
      const [{ bladeGrids }, { rasterOf, writeX3p }] = await Promise.all([
        import('../../src/answers/surface-files.ts'),
        import('../../src/exchange/surfaces/x3p.ts'),
      ]);
      const grid = bladeGrids(reed).find((one) => one.blade === blade)!;
      return [`${blade}.x3p`, writeX3p(rasterOf(grid, STEP_MM)), 'application/zip'];
    });
  }

  private handleCsv() {
    return this.give(async ({ benched: { reed, passes } }) => {
      const { writeLongCsv } = await import('../../src/exchange/csv/write-csv.ts');
      return ['csv', writeLongCsv([{ label: reed.label, passes }], this.library.choices.decimal), 'text/csv'];
    });
  }

  override render() {
    const whole = this.reed && this.library.store?.wholePassesOf(this.reed.id);
    const pass = whole?.find(({ id }) => id === this.pass?.id);
    if (!pass || pass.readings.length === 0) return nothing;
    const read = BLADES.filter((blade) => pass.readings.some((reading) => reading.blade === blade));
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
        <button @click=${this.handleGlb}>Bodies as glTF</button>
        <button @click=${this.handleStl}>Bodies as STL</button>
        ${read.map((blade) => html`<button @click=${() => this.handleAreal(blade)}>Blade ${blade} as x3p</button>`)}
        <button @click=${this.handleCsv}>Readings as CSV</button>
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-files': ReedFiles;
  }
}
