import { customElement, property } from 'lit/decorators.js';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import type { Probed } from '../../src/answers/probe-words.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { sayThereNow } from '../../src/answers/there-now.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { AGAINST, againstSheet, type Against } from '../bench/against.ts';
import type { PlateSheet } from '../bench/plate-sheet.ts';
import { PRINTED, printedSheet } from '../bench/printed.ts';
import { lastResult } from '../last-result.ts';
import { oneOf } from './reed-part.ts';
import { ReedPlate } from './reed-plate.ts';

const SHOWS = [...Object.keys(PRINTED), ...Object.keys(AGAINST)];

const isAgainst = (shows: Probed | Against): shows is Against => shows in AGAINST;

/**
 * Both blades of a reed as maps, bark side, tip up, with their readings; or as a body, by `stance`.
 *
 * Keys: Tab comes to a blade, arrows walk its readings, `x` goes to the facing place of the other blade.
 */
@customElement('bench-reed-map')
export class ReedMap extends ReedPlate {
  /**
   * What the colours stand for: `thickness`, `through` (the surface through every reading), `doubt` (the ± of each place),
   * `believable` (the smallest change to believe) or `slope`; or a difference: `mirror` (each place less its mirror place),
   * `facing` (less what faces it) or `other` (less the same place of the other blade).
   */
  @property({ reflect: true, useDefault: true }) shows: Probed | Against = 'thickness';

  private readonly sheet = lastResult(
    (
      benched: FittedReed,
      pass: number,
      shows: Probed | Against,
      unit: ThicknessUnit,
      decimal: NumberFormat['decimal'],
    ): PlateSheet =>
      isAgainst(shows)
        ? againstSheet({ benched, pass }, shows, { unit, decimal })
        : printedSheet({ benched, pass }, shows, { unit, decimal }),
  );

  protected override get misfit() {
    return super.misfit ?? oneOf('shows', this.shows, SHOWS);
  }

  protected override renderReed(at: ReedAtPass) {
    const sheet = this.sheet(at.benched, at.pass, this.shows, this.unit, this.decimal);
    // Where it stands alone nobody else says what is there.
    const label = this.bare ? '' : sayThereNow(figuresOf(at), this.writing).say;
    return this.renderPlate(at, { ...sheet, label });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-map': ReedMap;
  }
}
