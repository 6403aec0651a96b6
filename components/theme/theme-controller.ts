import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { THEMES, type Theme } from './palette.ts';
import { tokens } from './tokens.ts';

/** A maker's choice of look; `system` leaves day or dark to the system. */
export type ThemeChoice = Theme | 'system';

const LOOKS = ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)'];
const changes = new EventTarget();

/** Gives a document, or a shadow inside it, the tokens, once. Elements do it by themselves when they are first shown. */
export function adoptTokens(root: DocumentOrShadowRoot): void {
  const sheet = tokens.styleSheet;
  if (!sheet || root.adoptedStyleSheets.includes(sheet)) return;
  root.adoptedStyleSheets = [...root.adoptedStyleSheets, sheet];
}

/** Sets the look of everything inside `root`, or of the page when `root` is its `html` element. */
export function chooseTheme(root: HTMLElement, theme: ThemeChoice): void {
  if (theme === 'system') delete root.dataset['theme'];
  else root.dataset['theme'] = theme;
  changes.dispatchEvent(new Event('change'));
}

/** Multiplies every step of type inside `root`, from 0.9 to 1.5. */
export function chooseTextScale(root: HTMLElement, scale: number): void {
  root.style.setProperty('--bench-scale', String(scale));
  changes.dispatchEvent(new Event('change'));
}

/** Gives its host the tokens, and a new update when the look changes. Most elements need only the first: CSS does it. */
export class ThemeController implements ReactiveController {
  private listening: AbortController | undefined;
  private readonly host: ReactiveControllerHost & Element;

  constructor(host: ReactiveControllerHost & Element) {
    this.host = host;
    host.addController(this);
  }

  hostConnected(): void {
    adoptTokens(this.host.ownerDocument);
    this.listening = new AbortController();
    const update = () => this.host.requestUpdate();
    const { signal } = this.listening;
    changes.addEventListener('change', update, { signal });
    for (const query of LOOKS) matchMedia(query).addEventListener('change', update, { signal });
  }

  hostDisconnected(): void {
    this.listening?.abort();
  }

  /** Lets `data-theme` decide on the host too where that stands inside somebody's shadow. */
  adoptInside(): void {
    const root = this.host.getRootNode();
    if (root instanceof ShadowRoot) adoptTokens(root);
  }

  /** The look in force at the host. */
  get name(): Theme {
    const name = this.read('--bench-theme');
    return THEMES.find((theme) => theme === name) ?? 'day';
  }

  /** The factor on type in force at the host. */
  get textScale(): number {
    return Number(this.read('--bench-scale')) || 1;
  }

  private read(property: string): string {
    return getComputedStyle(this.host).getPropertyValue(property).trim();
  }
}
