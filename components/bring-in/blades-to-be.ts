import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import { USUAL_BLADE_MM } from '../../src/round/round-plans.ts';
import { readingText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { roundOutline } from '../round/round-outline.ts';
import { outlineStyles } from '../round/round-outline.styles.ts';
import { boxes } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Half the blade's width that a picture is drawn with, mm; the file does not tell it. */
const halfWidthMm = (mm: number) => 3.5 - 0.048 * mm;

/** More places than a round may have are no round's: they are not drawn one by one. */
const MOST_DRAWN = 800;

/** A place of a sheet with its number as it is written; blank for none. */
export type Written = Place & { readonly text: string };

/** A blade as it will be: its numbers where they were read. Nothing where none is on it. */
export function bladeToBe(blade: Blade, written: readonly Written[]) {
  const own = written.filter((one) => one.blade === blade);
  if (own.length === 0) return nothing;
  const stations = own.map(({ fromTipMm, across, text }) => ({
    key: `${fromTipMm} ${across}`,
    ...{ fromTipMm, across, isOdd: false, isUnsure: false },
    ...(text === '' ? { is: 'skipped' as const } : { is: 'taken' as const, text }),
  }));
  const outline = {
    blade,
    stations,
    bladeLengthMm: Math.max(USUAL_BLADE_MM.long, ...own.map(({ fromTipMm }) => fromTipMm)),
    halfWidthMm,
    label: `Blade ${blade} as it will be, bark side, tip up: ${own.length} places.`,
  };
  return html`<div class="outline">${roundOutline(outline)}</div>`;
}

/** The two blades of what was read, as they will be: one pass at a time, the last of the first reed before another is chosen. */
@customElement('bench-blades-to-be')
export class BladesToBe extends BenchElement {
  static override styles = [
    boxes,
    outlineStyles,
    css`
      .blades {
        display: flex;
        gap: var(--bench-space-4);
        max-width: 760px;
      }
      .outline {
        flex: 1 1 0;
        min-width: 0;
      }
      p {
        margin: var(--bench-space-2) 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  @state() private chosen = '';

  @property({ attribute: false }) reeds: readonly ReedDraft[] = [];
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override render() {
    const { reeds, writing } = this;
    const passes = reeds.flatMap(({ label, passes: own }) =>
      own.map((pass) => ({ name: `${label}, pass ${pass.index}`, pass })),
    );
    const last = passes[(reeds[0]?.passes.length ?? 1) - 1];
    const shown = passes.find(({ name }) => name === this.chosen) ?? last;
    if (!shown) return nothing;
    const written = shown.pass.readings
      .filter(({ repeat }) => repeat === 0)
      .map(({ thicknessMm, ...place }): Written => ({
        ...place,
        text: thicknessMm === undefined ? '' : readingText(thicknessMm, writing),
      }));
    return html`<p>
        <label
          >As it will be
          <select @change=${(event: Event) => (this.chosen = (event.target as HTMLSelectElement).value)}>
            ${passes.map(({ name }) => html`<option ?selected=${name === shown.name}>${name}</option>`)}
          </select></label
        >
        in ${UNIT_WORDS[writing.unit].name}, bark side, tip up
      </p>
      ${
        written.length > MOST_DRAWN
          ? html`<p>${written.length} places are too many to be drawn one by one.</p>`
          : html`<div class="blades">${BLADES.map((blade) => bladeToBe(blade, written))}</div>`
      }`;
  }
}
