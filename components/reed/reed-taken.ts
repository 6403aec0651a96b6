import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { Place } from '../../shared/blade.ts';
import { differenceWords } from '../../src/answers/difference-words.ts';
import { zonesAt, type ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { takenPatches, takenTable, takenVolumes } from '../../src/answers/record/taken-tables.ts';
import { sayTakenOff } from '../../src/answers/say-taken-off.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import { SEEN } from '../bench/plate-data.ts';
import { TAKEN_ENDS, TAKEN_KEY, TAKEN_NOTE, takenPlate } from '../bench/taken-plate.ts';
import { lastResult } from '../last-result.ts';
import { listed, someOf } from './reed-part.ts';
import { ReedPlate } from './reed-plate.ts';

const SHOWN = ['words', 'map', 'zones', 'patches', 'volumes'];

/** What came off a reed between two passes: by place, coloured only where the gauge can tell it from nothing, and by zone. */
@customElement('bench-reed-taken')
export class ReedTaken extends ReedPlate {
  private readonly plate = lastResult(takenPlate);

  /** Number of the earlier pass; the one before the pass that is shown while absent. */
  @property({ type: Number, reflect: true }) since: number | undefined;
  /** What is shown, words with blanks between: `words`, `map`, `zones`, `patches`, `volumes`. */
  @property({ reflect: true, useDefault: true }) show = 'words map zones';

  protected override get misfit() {
    return super.misfit ?? someOf('show', this.show, SHOWN);
  }

  protected override renderReed(at: ReedAtPass) {
    const numbers = at.benched.assembled.passes.map(({ index }) => index);
    const before = this.since === undefined ? at.pass - 1 : numbers.indexOf(this.since);
    if (this.since !== undefined && (before < 0 || before >= at.pass))
      return html`<p role="alert" part="problem">There is no pass ${this.since} before this one.</p>`;
    if (before < 0) return html`<p>One pass so far: nothing was taken off between two.</p>`;
    const figures = figuresOf(at);
    const { say, mind } = sayTakenOff(at.benched, figures.taken(before), this.writing);
    const table = (make: typeof takenTable) =>
      guard([figures, before, this.unit, this.decimal], () => this.renderTable(make(figures, before)));
    const views: Readonly<Record<string, () => unknown>> = {
      words: () => html`<p>${say} ${mind}</p>`,
      map: () => this.renderPlate(at, this.sheet(at, before, say)),
      zones: () => table(takenTable),
      patches: () => table(takenPatches),
      volumes: () => table(takenVolumes),
    };
    const shown = listed(this.show);
    return SHOWN.map((word) => (shown.includes(word) ? views[word]!() : nothing));
  }

  private sheet(at: ReedAtPass, before: number, say: string) {
    const { benched, pass } = at;
    const [from, to] = [before, pass].map((place) => benched.assembled.passes[place]!.index);
    return {
      plate: this.plate(benched, pass, before),
      quantity: 'difference' as const,
      heading: `Taken off between pass ${from} and pass ${to}`,
      caption: `${sentence(UNIT_WORDS[this.unit].caption)}. ${SEEN}`,
      note: TAKEN_NOTE,
      // Where the words stand beside it they are heard once.
      label: this.bare ? '' : say,
      ends: TAKEN_ENDS,
      key: TAKEN_KEY,
      carried: 'lifted' as const,
      probed: (place: Place) =>
        differenceWords(figuresOf(at).taken(before).maps, place, zonesAt(benched, pass), this.writing),
    };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-taken': ReedTaken;
  }
}
