import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import '../picture/picture.ts';
import './blade-map.ts';
import type { BladeMapData } from './map-data.ts';
import { usualBlades } from './usual-blades.ts';

/**
 * What will stand at an empty place, drawn from the reed that is usual for a style and marked as such.
 *
 * @slot - One sentence how to get there.
 */
@customElement('bench-usual-reed')
export class UsualReed extends BenchElement {
  static override styles = css`
    :host {
      display: flex;
      flex-wrap: wrap;
      gap: var(--bench-space-5);
      align-items: center;
      padding: var(--bench-space-4) var(--bench-space-5);
      border: 1px dashed var(--bench-rule2);
    }
    figure {
      flex: 0 0 min(300px, 100%);
      margin: 0;
    }
    .blades {
      display: grid;
      grid-template-columns: 1fr 1fr;
      opacity: 0.5;
    }
    figcaption {
      color: var(--bench-ink2);
      font: var(--bench-font-caption);
      text-align: center;
    }
    .how {
      flex: 1 1 280px;
      font: var(--bench-font-say);
    }
  `;

  @property({ attribute: 'style-key' }) styleKey = 'long-scrape';

  override render() {
    const { name, key } = startingStyle(this.styleKey);
    const usual = `The usual ${name.toLowerCase()}`;
    const caption = `${usual}, common practice: no reed of yours`;
    return html`<figure>
        <bench-picture caption=${caption} file-name=${usual}>
          <div class="blades">
            ${Object.values(usualBlades(key)).map(
              (data: BladeMapData) =>
                html`<bench-blade-map
                  plain
                  .data=${data}
                  label=${`${usual}, blade ${data.blade}`}
                ></bench-blade-map>`,
            )}
          </div>
          <figcaption part="words">${caption}</figcaption></bench-picture
        >
      </figure>
      <div class="how"><slot></slot></div>`;
  }
}
