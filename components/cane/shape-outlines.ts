import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Shape } from '../../shared/cane.ts';
import { flareOf } from '../../src/cane/flare.ts';
import { WIDTH_U_MM } from '../../src/cane/shapes.ts';
import { COVERAGE, numberText, withUnit, type NumberFormat } from '../../src/words/format.ts';
import { levels } from '../marks/axes.ts';
import { marks } from '../marks/marks.styles.ts';
import { sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const HEIGHT = 214;
const MOST_SHAPES = 4;
/** What stands out from the straight taper is drawn this many times larger. */
const ENLARGED = 10;

/** As much of a shape as its outline needs. */
type Outline = Pick<Shape, 'name' | 'widths'>;

/** Outlines of shapes laid over each other on one straight taper; what stands out from it is drawn ten times. */
@customElement('bench-shape-outlines')
export class ShapeOutlines extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      .shape-0 {
        stroke-width: 2.2;
      }
      .shape-1 {
        stroke-dasharray: 6 3;
      }
      .shape-2 {
        stroke-dasharray: 1.5 4;
      }
      .shape-3 {
        stroke-dasharray: 9 3 2 3;
      }
    `,
  ];

  private readonly size = new WidthController(this);

  @property({ attribute: false }) shapes: readonly Outline[] = [];
  @property() decimal: NumberFormat['decimal'] = 'point';

  override render() {
    const shapes = this.shapes.slice(0, MOST_SHAPES);
    const { width } = this.size;
    if (shapes.length === 0 || width === 0) return nothing;
    const { along, taper, outlines } = drawn(shapes, width);
    return html`<bench-picture caption=${CAPTION} file-name="shapes">
      <svg
        part="picture"
        role="img"
        aria-label=${`${CAPTION}: ${this.words}`}
        width=${width}
        height=${HEIGHT}
        viewBox="0 0 ${width} ${HEIGHT}"
      >
        ${levels(along, [26, width - 4], along.ticks(5), (mm) => numberText(mm, 0, this))}
        <path class="whisker" d=${taper}></path>
        ${outlines.map((d, k) => svg`<path class=${`line shape-${k}`} d=${d}></path>`)}
      </svg>
      <ul class="key">
        ${shapes.map(
          ({ name }, k) =>
            html`<li>
              <svg part="picture key" viewBox="-13 -8 26 16" width="26" height="16" aria-hidden="true">
                <path class=${`line shape-${k}`} d="M-12 0H12"></path></svg
              ><span part="words">${name}</span>
            </li>`,
        )}
      </ul>
      ${this.renderTable(shapes)}
    </bench-picture>`;
  }

  private renderTable(shapes: readonly Outline[]) {
    return sameAsTable({
      caption: `Widths of the shapes at distances from the fold, mm, each ±${numberText(COVERAGE * WIDTH_U_MM, 2, this)}`,
      heads: ['Shape', 'mm from the fold', 'Width'],
      rows: shapes.flatMap(({ name, widths }) =>
        widths.map((one) => [
          name,
          numberText(one.fromFoldMm, 1, this),
          withUnit(numberText(one.widthMm, 2, this), 'mm'),
        ]),
      ),
    });
  }

  private get words(): string {
    const text = (mm: number) => numberText(mm, 2, this);
    return this.shapes
      .map(
        ({ name, widths }) =>
          `${name}, ${text(widths[0]!.widthMm)} mm wide at the fold, ${text(widths.at(-1)!.widthMm)} at the end`,
      )
      .join('; ');
  }
}

/** Paths of outlines about the middle of a drawing, with the taper that they stand out from. */
function drawn(shapes: readonly Outline[], width: number) {
  const { taper, outlines } = flareOf(shapes.map(({ widths }) => widths));
  const longest = Math.max(...shapes.map(({ widths }) => widths.at(-1)!.fromFoldMm));
  const along = scaleLinear([0, longest], [12, HEIGHT - 12]);
  const straight = scaleLinear(
    taper.map(({ fromFoldMm }) => fromFoldMm),
    taper.map(({ widthMm }) => widthMm),
  );
  const halves = outlines.map((one) =>
    one.map(({ fromFoldMm, outMm }) => ({ fromFoldMm, half: (straight(fromFoldMm) + ENLARGED * outMm) / 2 })),
  );
  const widest = Math.max(4, ...halves.flat().map(({ half }) => Math.abs(half)));
  const across = (width / 2 - 34) / widest;
  const both = (places: readonly { readonly fromFoldMm: number; readonly half: number }[]) =>
    [-1, 1]
      .map(
        (sign) =>
          `M${places.map(({ fromFoldMm, half }) => `${(width / 2 + sign * half * across).toFixed(1)} ${along(fromFoldMm).toFixed(1)}`).join('L')}`,
      )
      .join('');
  return {
    along,
    taper: both(taper.map(({ fromFoldMm, widthMm }) => ({ fromFoldMm, half: widthMm / 2 }))),
    outlines: halves.map(both),
  };
}

const CAPTION =
  'Outlines of shapes over each other, mm from the fold; what stands out from a straight taper is drawn ten times';
