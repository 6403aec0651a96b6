import { html, nothing } from 'lit';
import { customElement } from 'lit/decorators.js';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { download } from './download.ts';
import { rows } from './setup.styles.ts';

/** Records that this program cannot read: shown, left as they are, and to be taken away as a file. */
@customElement('bench-set-aside')
export class SetAsideList extends BenchElement {
  static override styles = [controls, rows];

  private readonly library = new LibraryController(this);

  override updated() {
    this.hidden = !this.library.store?.snapshot.setAside.length;
  }

  private async handleKeep() {
    const { store } = this.library;
    if (!store) return;
    try {
      const { setAside } = await store.ledger.readWhole();
      download('hundredths-set-aside.json', JSON.stringify(setAside, null, 2), 'application/json');
    } catch (error) {
      store.tell(error);
    }
  }

  override render() {
    const setAside = this.library.store?.snapshot.setAside ?? [];
    if (setAside.length === 0) return nothing;
    return html`<section aria-label="Set aside">
      <h2>Set aside</h2>
      <p>
        These records cannot be read by this version of the bench. The rest is fine. They stay in the library
        and go into every copy of it; a newer version may read them.
      </p>
      <ul>
        ${setAside.map(
          ({ id, reason }) =>
            html`<li>
              <p>${reason}<small>${id}</small></p>
            </li>`,
        )}
      </ul>
      <div class="acts"><button @click=${this.handleKeep}>Keep them as a file</button></div>
    </section>`;
  }
}
