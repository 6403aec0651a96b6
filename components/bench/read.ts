import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Reed } from '../../shared/reed.ts';
import { hrefOf } from '../frame/routes.ts';
import { gridWith, type GridShape } from '../readings-grid/grid-cells.ts';
import '../readings-grid/readings-grid.ts';
import type { ReadingsChangeEvent } from '../readings-grid/readings-grid.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

/** Stations of a full map. Common practice, no source. */
const USUAL: GridShape = {
  fromTipMm: [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20],
  across: [-0.8, -0.4, 0, 0.4, 0.8],
};

/** The readings of a pass as a sheet to type into. Every reading is kept when it is typed, and can be undone. */
@customElement('bench-read')
export class ReadPass extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      .page {
        display: grid;
        gap: var(--bench-space-4);
        padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3) var(--bench-space-4);
        align-items: center;
      }
      p {
        max-width: 60em;
        margin: 0;
        color: var(--bench-ink2);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  /** The pass that is typed into; absent before the first. */
  @property({ attribute: false }) pass: Pass | undefined;

  /** The pass as the library holds it now: what the page was given may be a moment older. */
  private get current(): Pass | undefined {
    const { reed, pass, library } = this;
    const passes = reed ? (library.store?.passesOf(reed.id) ?? []) : [];
    return pass ? (passes.find(({ index }) => index === pass.index) ?? pass) : passes.at(-1);
  }

  /** Keys never wait: changes queue, and each is kept on top of the one before. */
  private queue: Promise<unknown> = Promise.resolve();
  /** The readings as they stand in the sheet while they are still being kept. */
  @state() private typed: readonly Reading[] | undefined;

  private handleReadings({ readings }: ReadingsChangeEvent) {
    const index = this.current?.index;
    this.typed = readings;
    this.queue = this.queue
      .then(() => this.keepReadings(readings, index))
      .then(() => {
        if (this.typed === readings) this.typed = undefined;
      });
  }

  private async keepReadings(readings: readonly Reading[], index: number | undefined): Promise<void> {
    const { reed, library } = this;
    if (!reed || !library.store) return;
    const passes = library.store.passesOf(reed.id);
    const pass = index === undefined ? passes.at(-1) : passes.find((one) => one.index === index);
    if (pass) await library.store.keep([{ ...pass, readings: [...readings] }], `a reading of ${reed.label}`);
    else await this.makePass(readings);
  }

  private makePass(readings: readonly Reading[]): Promise<boolean> {
    const { reed, library } = this;
    const store = library.store!;
    const before = store.passesOf(reed!.id).at(-1);
    const pass = {
      kind: 'pass' as const,
      reedId: reed!.id,
      index: (before?.index ?? -1) + 1,
      takenAt: store.ledger.now(),
      ...(before?.overallLengthMm !== undefined && { overallLengthMm: before.overallLengthMm }),
      ...(before?.threadMm !== undefined && { threadMm: before.threadMm }),
      ...(before?.wetness && { wetness: before.wetness }),
      remedies: [],
      readings: [...readings],
    };
    return store.keep([pass], `pass ${pass.index} of ${reed!.label}`);
  }

  private async handleNew() {
    const { reed, library } = this;
    if (!reed || !(await this.makePass([]))) return;
    const index = library.store!.passesOf(reed.id).at(-1)!.index;
    location.hash = hrefOf({ at: 'bench', reedId: reed.id, question: 'read', pass: index });
  }

  override render() {
    const { reed, current: pass, library } = this;
    if (!reed) return nothing;
    const readings = this.typed ?? pass?.readings ?? [];
    const count = readings.filter(({ thicknessMm }) => thicknessMm !== undefined).length;
    return html`<div class="page">
      <div class="acts">
        <strong>${pass ? `Pass ${pass.index}` : 'The first pass'}, ${count} readings</strong>
        ${pass && count > 0 ? html`<button @click=${this.handleNew}>New pass</button>` : nothing}
      </div>
      <p>
        Digits and Enter; 46 is 0.46 mm. Arrows move, a blank cell and Enter clears, Ctrl Z takes back. Each
        reading is kept as you type it. Lower the ball gently: it dents a thin wet tip.
      </p>
      <bench-readings-grid
        .readings=${readings}
        .shape=${gridWith(USUAL, readings)}
        .writing=${library.writing}
        .stepMm=${pass?.gaugeStepMm ?? 0.01}
        @bench-readings-change=${this.handleReadings}
      ></bench-readings-grid>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-read': ReadPass;
  }
}
