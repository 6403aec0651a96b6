import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { InputError } from '../../shared/errors.ts';
import { MAX_PHOTO_BYTES, type Photo } from '../../shared/photo.ts';
import type { Reed } from '../../shared/reed.ts';
import { checkPhotoSize } from '../../src/ledger/photos.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Photographs of a reed. They stay on this machine, each no larger than is stated. */
@customElement('bench-photo-strip')
export class PhotoStrip extends BenchElement {
  static override styles = [
    controls,
    forms,
    css`
      ul {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        margin: 0 0 var(--bench-space-3);
        padding: 0;
        list-style: none;
      }
      figure {
        display: grid;
        gap: var(--bench-space-1);
        margin: 0;
      }
      img {
        width: 160px;
        height: 160px;
        border: 1px solid var(--bench-rule);
        object-fit: contain;
        background: var(--bench-plate);
      }
      .note {
        margin: var(--bench-space-2) 0 0;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private readonly addresses = new Map<string, string>();
  @state() private problem = '';

  @property({ attribute: false }) reed: Reed | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    for (const address of this.addresses.values()) URL.revokeObjectURL(address);
    this.addresses.clear();
  }

  private get photos(): readonly Photo[] {
    return this.library.store?.snapshot.live.photo.filter(({ of }) => of === this.reed?.id) ?? [];
  }

  override updated() {
    for (const photo of this.photos) if (!this.addresses.has(photo.sha256)) void this.open(photo);
  }

  private async open({ sha256, mediaType }: Photo) {
    this.addresses.set(sha256, '');
    const bytes = await this.library.store!.ledger.photoBytes(sha256);
    if (!bytes || !this.isConnected) return;
    this.addresses.set(sha256, URL.createObjectURL(new Blob([bytes as BlobPart], { type: mediaType })));
    this.requestUpdate();
  }

  private async handleFiles(event: Event) {
    const input = event.target as HTMLInputElement;
    const { reed } = this;
    const { store } = this.library;
    this.problem = '';
    if (!reed || !store) return;
    for (const file of input.files ?? []) {
      try {
        store.checkOwn([reed.id]);
        checkPhotoSize(file.size);
        const bytes = new Uint8Array(await file.arrayBuffer());
        await store.ledger.keepPhoto({ of: reed.id }, bytes, `photograph of ${reed.label}`);
      } catch (error) {
        if (error instanceof InputError) this.problem = `${file.name}: ${error.message}`;
        else store.tell(error);
      }
    }
    input.value = '';
    await store.refresh();
  }

  private handleRemove({ id }: Photo) {
    void this.library.store?.remove([id], `photograph of ${this.reed!.label}`);
  }

  override render() {
    const { reed } = this;
    if (!reed) return nothing;
    return html`${
        this.photos.length > 0
          ? html`<ul>
              ${this.photos.map((photo, i) => this.renderPhoto(photo, i))}
            </ul>`
          : nothing
      }
      <label
        >Add a photograph<input
          type="file"
          accept="image/jpeg,image/png,image/webp"
          multiple
          @change=${this.handleFiles}
      /></label>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      <p class="note">
        Kept on this machine only, up to ${MAX_PHOTO_BYTES / 1e6} MB each. A photograph against the lamp is
        worth most.
      </p>`;
  }

  private renderPhoto(photo: Photo, i: number) {
    const address = this.addresses.get(photo.sha256);
    const name = `Photograph ${i + 1} of ${this.reed!.label}`;
    return html`<li>
      <figure>
        ${address ? html`<img src=${address} alt=${name} />` : html`<p>${name} is not on this machine.</p>`}
        <button
          @click=${() => this.handleRemove(photo)}
          aria-label=${`Put ${name.toLowerCase()} into the bin`}
        >
          Put into the bin
        </button>
      </figure>
    </li>`;
  }
}
