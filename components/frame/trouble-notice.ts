import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { diagnosticText } from '../../src/report/diagnostic.ts';
import type { Trouble } from '../store/trouble.ts';
import { parseRoute } from './routes.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { notices } from '../theme/notices.styles.ts';

/**
 * The one place where the page says that something went wrong: what happened, what is safe, what to do.
 *
 * @event bench-trouble-dismiss - The maker has read it.
 */
@customElement('bench-trouble')
export class TroubleNotice extends BenchElement {
  static override styles = [
    controls,
    notices,
    css`
      section {
        border-left-color: var(--bench-ink);
      }
      section.grave {
        border-left-color: var(--bench-stop);
      }
      div {
        flex: 1 1 320px;
      }
      p,
      ul {
        margin: 0;
        font: var(--bench-font-aside);
      }
      details {
        color: var(--bench-ink2);
      }
      pre {
        max-width: 100%;
        margin: 0 0 var(--bench-space-2);
        overflow-x: auto;
        white-space: pre-wrap;
        overflow-wrap: anywhere;
      }
      ul {
        padding-left: var(--bench-space-4);
        color: var(--bench-ink2);
        font: var(--bench-font-body);
      }
    `,
  ];

  @state() private copied = '';

  @property({ attribute: false }) trouble: Trouble | undefined;

  private async handleCopy(text: string) {
    try {
      await navigator.clipboard.writeText(text);
      this.copied = text;
    } catch {
      // The browser may refuse; the text stands there to be selected.
      this.copied = '';
    }
  }

  private handleDismiss() {
    this.dispatchEvent(new Event('bench-trouble-dismiss'));
  }

  override render() {
    const { trouble } = this;
    return html`<div role="alert">${trouble ? this.renderTrouble(trouble) : nothing}</div>`;
  }

  private renderTrouble({ words, details = [], act, grave, stays, cause }: Trouble) {
    return html`<section class=${grave ? 'grave' : ''} aria-label="Something went wrong">
      <div>
        <p>${words}</p>
        ${
          details.length > 0
            ? html`<ul>
                ${details.map((line) => html`<li>${line}</li>`)}
              </ul>`
            : nothing
        }
        ${cause === undefined ? nothing : this.renderReport(cause)}
      </div>
      ${act ? html`<button @click=${act.run}>${act.words}</button>` : nothing}
      ${stays ? nothing : html`<button @click=${this.handleDismiss}>Good</button>`}
    </section>`;
  }

  private renderReport(cause: unknown) {
    const text = diagnosticText(cause, {
      browser: navigator.userAgent,
      windowPx: [innerWidth, innerHeight],
      place: parseRoute(location.hash).at,
    });
    return html`<details>
      <summary>A report to pass on, without anything of yours in it</summary>
      <pre>${text}</pre>
      <button @click=${() => this.handleCopy(text)}>Copy it</button>
      <span role="status">${this.copied === text ? 'Copied' : nothing}</span>
    </details>`;
  }
}
