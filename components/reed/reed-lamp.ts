import { css, html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { thicknessPlate } from '../bench/plate-data.ts';
import '../lamp/lamp-blade.ts';
import { ReedPart } from './reed-part.ts';

/** A reed held to the lamp, A in front and B behind, with the sums of both in figures; worked out from the thickness. */
@customElement('bench-reed-lamp')
export class ReedLamp extends ReedPart {
  static override styles = [
    ReedPart.styles,
    css`
      bench-lamp-blade {
        --bench-pair-width: 550px;

        max-width: 100%;
        margin-top: 0;
      }
    `,
  ];

  protected override renderReed({ benched, pass }: ReedAtPass) {
    const { A, B } = benched.model!.blades;
    if (!A || !B) return html`<p>Only one blade was read: the lamp looks through both.</p>`;
    return guard(
      [benched, pass, this.unit, this.decimal],
      () =>
        html`<bench-lamp-blade
          .benched=${benched}
          .pass=${pass}
          .reed=${thicknessPlate(benched, pass)}
          .writing=${this.writing}
        ></bench-lamp-blade>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-lamp': ReedLamp;
  }
}
