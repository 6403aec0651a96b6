import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { facing, type Place } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { thicknessPlate } from '../bench/plate-data.ts';
import '../lamp/lamp-blade.ts';
import { lastResult } from '../last-result.ts';
import { ReedPart } from './reed-part.ts';

/** A reed held to the lamp, A in front and B behind, with the sums of both in figures; worked out from the thickness. */
@customElement('bench-reed-lamp')
export class ReedLamp extends ReedPart {
  static override styles = [
    ReedPart.styles,
    css`
      bench-lamp-blade {
        max-width: 242px;
      }
      :host([bare]) bench-lamp-blade {
        max-width: none;
      }
    `,
  ];

  private readonly plate = lastResult(thicknessPlate);

  /** A place to mark, of either blade: `blade`, `fromTipMm`, `across`. */
  @property({ attribute: false }) probe: Place | undefined;

  protected override renderReed({ benched, pass }: ReedAtPass) {
    const { A, B } = benched.model!.blades;
    if (!A || !B) return html`<p>Only one blade was read: the lamp looks through both.</p>`;
    const { probe } = this;
    return html`<bench-lamp-blade
      .benched=${benched}
      .pass=${pass}
      .reed=${this.plate(benched, pass)}
      .probe=${probe?.blade === 'B' ? facing(probe) : probe}
      .writing=${this.writing}
    ></bench-lamp-blade>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-lamp': ReedLamp;
  }
}
