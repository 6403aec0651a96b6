import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ReedAtPass } from '../../src/answers/benched-reed.ts';
import '../bench/fitted-relief.ts';
import type { Print } from '../map/prints.ts';
import { oneOf, ReedPart } from './reed-part.ts';

const STANCES: readonly Print[] = ['opened', 'staple', 'flat'];

/**
 * A reed as a body that is turned in the hand. What draws it is fetched when it first comes into sight; where the browser
 * has no WebGL the flat maps stand in its place.
 *
 * Keys, while the picture has the focus: arrows turn it, `+` and `-` come nearer and go back, `0` is the first view, Shift
 * and arrows move the marked place, `F` fills the screen.
 */
@customElement('bench-reed-relief')
export class ReedRelief extends ReedPart {
  static override styles = [
    ReedPart.styles,
    css`
      bench-fitted-relief {
        max-width: 760px;
      }
    `,
  ];

  /** How the reed lies: `opened` (the blades beside each other), `staple` (as it is played) or `flat`. */
  @property({ reflect: true, useDefault: true }) stance: Print = 'opened';

  protected override get misfit() {
    return super.misfit ?? oneOf('stance', this.stance, STANCES);
  }

  protected override renderReed({ benched, pass }: ReedAtPass) {
    return html`<bench-fitted-relief
      .benched=${benched}
      .pass=${pass}
      .stance=${this.stance}
      .writing=${this.writing}
    ></bench-fitted-relief>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-relief': ReedRelief;
  }
}
