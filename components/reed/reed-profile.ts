import { html } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import '../bench/line-profile.ts';
import type { ProfileLine } from '../map/map-data.ts';
import type { MapLineMoveEvent } from '../map/map-events.ts';
import { ReedPart } from './reed-part.ts';

/** Thickness of a reed along a line: down the spine, a channel or a rail, or across. */
@customElement('bench-reed-profile')
export class ReedProfile extends ReedPart {
  /** Where the line runs; the reader may choose another. */
  @state() private line: ProfileLine = { kind: 'down', across: 0 };

  protected override renderReed({ benched, pass }: ReedAtPass) {
    return html`<bench-line-profile
      .benched=${benched}
      .pass=${pass}
      .line=${this.line}
      .writing=${this.writing}
      @bench-map-line-move=${({ line }: MapLineMoveEvent) => (this.line = line)}
    ></bench-line-profile>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-profile': ReedProfile;
  }
}
