import { css, html, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { zoneWords } from '../../src/blade/starting-styles.ts';
import { UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { hrefOf } from '../frame/routes.ts';
import '../map/map-legend.ts';
import type { Multiple, MultipleChooseEvent } from '../passes/small-multiples.ts';
import '../passes/small-multiples.ts';
import '../picture/picture.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { WhenSeen } from '../when-seen.ts';
import { removalPlate, thicknessPlate } from './plate-data.ts';

type Printed = 'thickness' | 'difference';
const PRINTED: Readonly<Record<Printed, string>> = { thickness: 'Thickness', difference: 'Taken off' };

/**
 * All passes of a reed as small pictures at one scale: thickness after each, or what each took off. One of them leads to its
 * pass. Worked out when it comes into sight.
 */
@customElement('bench-reed-passes')
export class ReedPasses extends BenchElement {
  static override styles = [
    controls,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-4);
        margin-bottom: var(--bench-space-3);
      }
      .row button {
        min-width: 44px;
        padding-inline: var(--bench-space-3);
        font: var(--bench-font-caption);
      }
      bench-map-legend {
        max-width: 272px;
      }
    `,
  ];

  protected readonly seen = new WhenSeen(this, () => (this.isSeen = true));
  private items: readonly Multiple[] = [];

  @state() private isSeen = false;
  @state() private blade: Blade = 'A';
  @state() private printed: Printed = 'thickness';

  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override willUpdate(changed: PropertyValues) {
    const { benched, blade, printed } = this;
    if (!this.isSeen || !benched?.model) return;
    if (!['isSeen', 'benched', 'blade', 'printed'].some((name) => changed.has(name))) return;
    if (!benched.model.blades[blade]) this.blade = BLADES.find((name) => benched.model!.blades[name]) ?? 'A';
    this.items = benched.assembled.passes.flatMap(({ index }, pass) => {
      if (printed === 'difference' && pass === 0) return [];
      const data = (printed === 'difference' ? removalPlate : thicknessPlate)(benched, pass)[this.blade];
      const done = (benched.passes[pass]?.scrape?.places ?? []).map(({ zone }) => zoneWords(zone)).join(', ');
      return data ? [{ id: String(index), title: `Pass ${index}`, notes: done ? [done] : [], data }] : [];
    });
  }

  private handleChoose({ id }: MultipleChooseEvent) {
    const question = this.printed === 'difference' ? 'taken' : 'there';
    location.hash = hrefOf({ at: 'bench', reedId: this.benched!.reed.id, question, pass: Number(id) });
  }

  private renderChoice<T extends string>(
    label: string,
    words: Readonly<Record<T, string>>,
    now: T,
    choose: (to: T) => void,
  ) {
    return html`<div class="choice" role="group" aria-label=${label}>
      ${(Object.keys(words) as T[]).map(
        (value) =>
          html`<button aria-pressed=${value === now} @click=${() => choose(value)}>${words[value]}</button>`,
      )}
    </div>`;
  }

  override render() {
    const { benched, blade, printed, writing } = this;
    if (!this.isSeen || !benched?.model) return html`<p>Working out the passes.</p>`;
    const { reed } = benched;
    return html`<div class="row">
        ${this.renderChoice('Printed', PRINTED, printed, (to) => (this.printed = to))}
        ${this.renderChoice('Blade', { A: 'A', B: 'B' }, blade, (to) => (this.blade = to))}
      </div>
      <bench-picture
        caption=${`${reed.label}, blade ${blade}, ${PRINTED[printed].toLowerCase()} by pass, ${UNIT_WORDS[writing.unit].caption}${reed.invented ? ' (invented)' : ''}`}
        date=${benched.passes.at(-1)?.takenAt?.slice(0, 10) ?? ''}
        file-name=${`${reed.label} passes`}
      >
        <bench-small-multiples
          .items=${this.items}
          .quantity=${printed}
          current=${String(benched.assembled.passes[this.pass]?.index ?? '')}
          @bench-multiple-choose=${this.handleChoose}
        ></bench-small-multiples>
        <bench-map-legend
          .quantity=${printed}
          .unit=${writing.unit}
          .decimal=${writing.decimal}
        ></bench-map-legend>
      </bench-picture>`;
  }
}
