import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FlowStage } from '../../src/cane/lot-flow.ts';
import { NO_FIGURE, numberText, withUnit, type NumberFormat } from '../../src/words/format.ts';
import { textures } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const HEIGHT = 178;
const TOP = 44;
const BAR_PX = 12;
const MOST_PX = 92;

/** From a gouged piece to a good reed: counts that go on, left, or are not decided yet. */
@customElement('bench-lot-flow')
export class LotFlow extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      .stage {
        fill: var(--bench-ink);
      }
      .on {
        fill: var(--bench-rule);
      }
      .open,
      .gone {
        stroke: var(--bench-ink2);
      }
    `,
  ];

  private readonly size = new WidthController(this);

  @property({ attribute: false }) stages: readonly FlowStage[] = [];
  @property() code = '';
  @property() decimal: NumberFormat['decimal'] = 'point';

  private get caption(): string {
    return `Lot ${this.code} from gouged pieces to good reeds, counts; below each stage its share of those decided before it, 95 %`;
  }

  private share({ share }: FlowStage, whole: boolean): string {
    if (!share) return NO_FIGURE;
    const pct = (value: number) => numberText(100 * value, 0, this);
    return whole ? withUnit(pct(share.share), '%') : `${pct(share.lower)} to ${pct(share.upper)}`;
  }

  override render() {
    const { stages } = this;
    const { width } = this.size;
    const most = Math.max(1, ...stages.map(({ count }) => count));
    if (width === 0 || stages.length === 0) return nothing;
    const pitch = (width - 90) / (stages.length - 1);
    const x = (k: number) => 20 + k * pitch;
    const high = (count: number) => (count / most) * MOST_PX;
    const said = stages.map(({ name, count, undecided, left }) => {
      const gone = left.map(({ reason, count: out }) => `${out} ${reason}`);
      return `${name} ${count}${undecided > 0 ? `, ${undecided} not decided yet` : ''}${gone.length > 0 ? `, left: ${gone.join(', ')}` : ''}`;
    });
    return html`<bench-picture caption=${this.caption} file-name=${`flow of lot ${this.code}`}>
      <svg
        part="picture"
        role="img"
        aria-label=${`${this.caption}: ${said.join('; ')}`}
        width=${width}
        height=${HEIGHT}
        viewBox="0 0 ${width} ${HEIGHT}"
      >
        ${textures} ${stages.map((stage, k) => this.renderStage(stage, stages[k + 1], x(k), x(k + 1), high))}
      </svg>
      ${sameAsTable({
        caption: this.caption,
        heads: ['Stage', 'Count', 'Share of those decided', 'Not decided yet', 'Left, with the reason'],
        rows: stages.map((stage) => [
          stage.name,
          String(stage.count),
          stage.share ? `${this.share(stage, true)} (${this.share(stage, false)})` : NO_FIGURE,
          String(stage.undecided),
          stage.left.map(({ reason, count }) => `${count} ${reason}`).join(', ') || NO_FIGURE,
        ]),
      })}
    </bench-picture>`;
  }

  private renderStage(
    stage: FlowStage,
    next: FlowStage | undefined,
    x: number,
    after: number,
    high: (count: number) => number,
  ) {
    const { name, count, undecided, left } = stage;
    const gone = left.reduce((sum, one) => sum + one.count, 0);
    const end = x + BAR_PX;
    const goesOn = high(next?.count ?? 0);
    const open = high(undecided);
    const words = [undecided > 0 && `${undecided} open`, gone > 0 && `${gone} left`].filter(Boolean);
    return svg`<text x=${x + BAR_PX / 2} y="8" text-anchor="middle">${name}</text>
      <text class="large" x=${x + BAR_PX / 2} y="28" text-anchor="middle">${count}</text>
      <rect class="stage" x=${x} y=${TOP} width=${BAR_PX} height=${Math.max(1, high(count))}></rect>
      ${next ? svg`<rect class="on" x=${end} y=${TOP} width=${after - end} height=${goesOn}></rect>` : nothing}
      ${undecided > 0 ? svg`<rect class="doubtful open" x=${end + 3} y=${TOP + goesOn + 1} width="14" height=${Math.max(3, open)}></rect>` : nothing}
      ${gone > 0 ? svg`<rect class="gone" x=${end + 3} y=${TOP + goesOn + open + 2} width="14" height=${Math.max(3, high(gone))}></rect>` : nothing}
      ${words.map((one, k) => svg`<text class="haloed" x=${end + 21} y=${TOP + goesOn + 8 + 15 * k}>${one}</text>`)}
      ${stage.share ? svg`<text class="strong" x=${x + BAR_PX / 2} y=${HEIGHT - 24} text-anchor="middle">${this.share(stage, true)}</text><text x=${x + BAR_PX / 2} y=${HEIGHT - 8} text-anchor="middle">${this.share(stage, false)}</text>` : nothing}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lot-flow': LotFlow;
  }
}
