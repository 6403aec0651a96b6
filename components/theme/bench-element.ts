import { LitElement, type CSSResultGroup } from 'lit';
import { base } from './base.styles.ts';
import { ThemeController } from './theme-controller.ts';

/** An element in the look that is in force where it stands: tokens, base styles, a new update when the look changes. */
export class BenchElement extends LitElement {
  protected readonly theme = new ThemeController(this);

  protected static override finalizeStyles(styles: CSSResultGroup = []) {
    return super.finalizeStyles([base, styles]);
  }
}
