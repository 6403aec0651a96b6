import { html } from 'lit';
import { assumedPlanform } from '../../src/blade/planform.ts';
import { LONG_SCRAPE } from '../../src/blade/starting-styles.ts';
import { STARTING_GOUGE } from '../../src/cane/wished-gouge.ts';
import { USUAL_OVERALL_MM } from '../../src/reed/overall-lengths.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import './gouge-picture.ts';
import './shape-outlines.ts';

/** The outline of a long scrape that nobody measured. */
const USUAL_SHAPE = {
  name: 'usual',
  widths: assumedPlanform(USUAL_OVERALL_MM, LONG_SCRAPE.tipWidthMm)
    .widths.map(({ fromCorkMm, widthMm }) => ({ fromFoldMm: USUAL_OVERALL_MM - fromCorkMm, widthMm }))
    .reverse(),
};

/** What stands where no lot does: a piece as it is usually wished. */
export function usualPiece(writing: NumberFormat) {
  return html`<section class="plate">
    <h2>A piece <small>the usual gouge, dashed: none of yours yet</small></h2>
    <bench-gouge-picture
      of="The usual gouge, no piece of yours"
      .wished=${STARTING_GOUGE}
      .writing=${writing}
    ></bench-gouge-picture>
    <p class="quiet">Press New lot, then type what three places of a gouged piece read.</p>
  </section>`;
}

/** What stands where no shape does: the usual outline. */
export function usualShape({ decimal }: NumberFormat) {
  return html`<section class="plate">
    <h2>Shapes <small>the usual one: none of yours yet</small></h2>
    <bench-shape-outlines .shapes=${[USUAL_SHAPE]} .decimal=${decimal}></bench-shape-outlines>
    <p class="quiet">A shape gives a blade its outline: press New shape.</p>
  </section>`;
}
