import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Checked } from '../../src/ledger/read-library.ts';
import { PatientWork } from '../bring-in/patient-work.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { rows } from './setup.styles.ts';

/** Looks at everything that is kept, whatever was found sound before, and reports. */
@customElement('bench-check-all')
export class CheckAll extends BenchElement {
  static override styles = [controls, rows];

  private readonly library = new LibraryController(this);
  private readonly checking = new PatientWork(this);
  @state() private found: Checked | undefined;

  private async handleCheck() {
    const { store } = this.library;
    if (!store) return;
    this.found = undefined;
    try {
      this.found = await this.checking.run((patience) => store.ledger.checkAll(patience));
      await store.refresh();
    } catch (error) {
      store.tell(error);
    }
  }

  private get report(): string {
    const { found } = this;
    if (!found) return 'Everything in the library can be read through and checked, record by record.';
    const { checked, setAside, mended } = found;
    const what = checked === 1 ? 'One record was' : `${checked} records were`;
    const records =
      setAside.length === 0
        ? `${what} looked at, and all are sound.`
        : `${what} looked at. ${setAside.length} cannot be read: see Set aside.`;
    return mended.length === 0
      ? records
      : `${records} Reeds whose list of passes was not as its passes are: ${mended.length}, made anew.`;
  }

  override render() {
    const { share } = this.checking;
    if (!this.library.store) return nothing;
    return html`<div class="row">
      <p role="status">${this.report}</p>
      ${
        share === undefined
          ? html`<button @click=${this.handleCheck}>Check everything</button>`
          : html`<label
                >Checking, ${Math.floor(100 * share)} %<progress max="1" .value=${share}></progress
              ></label>
              <button @click=${() => this.checking.cancel()}>Cancel</button>`
      }
    </div>`;
  }
}
