import { ContextProvider } from '@lit/context';
import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { InventedReedsEvent } from '../components/case/invented-reeds-event.ts';
import type { Command } from '../components/frame/commands.ts';
import { KeyController } from '../components/frame/key-controller.ts';
import '../components/frame/key-sheet.ts';
import type { KeySheet } from '../components/frame/key-sheet.ts';
import { hrefOf, parseRoute, QUESTION_WORDS, type Route } from '../components/frame/routes.ts';
import '../components/frame/top-bar.ts';
import '../components/frame/trouble-notice.ts';
import { enteredAddress } from '../components/sharing/shared-address.ts';
import { libraryContext } from '../components/store/library-controller.ts';
import { notePort } from '../components/store/library-ports.ts';
import { LibraryStore } from '../components/store/library-store.ts';
import '../components/keeping/installing.ts';
import { broughtBackNotice, troubleOf, type Trouble } from '../components/store/trouble.ts';
import { spareTime } from '../components/store/spare-time.ts';
import { base } from '../components/theme/base.styles.ts';
import { chooseTextScale, chooseTheme, ThemeController } from '../components/theme/theme-controller.ts';
import { StorageError } from '../src/ledger/errors.ts';
import { openLibrary } from '../src/ledger/open-library.ts';
import { commandsOf, startRound, stepUnit } from './commands.ts';
import { watchHandedFiles } from './handed-files.ts';
import { placeAt } from './places.ts';
import { openMirror, startFits, startJournal, startReader } from './start-workers.ts';

/** The address of the manifest's shortcut: a round of the reed of last time. */
const ROUND_SHORTCUT = '#/round';

/** The page: the bar, the place that the address names, and the keys. */
@customElement('bench-app')
export class BenchApp extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        min-height: 100vh;
        background: var(--bench-paper);
      }
      @media print {
        :host {
          min-height: 0;
          background: none;
        }
        header,
        bench-trouble {
          display: none;
        }
      }
      main:focus {
        outline: none;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  protected readonly keys = new KeyController(
    this,
    () => this.commands,
    () => this.store?.choices.letterKeys ?? true,
  );
  private readonly context = new ContextProvider(this, { context: libraryContext });
  private readonly listening = new AbortController();
  /** What the trouble that is shown was about, one after the other. */
  private readonly toldOf = new Set<string>();

  @query('bench-key-sheet') private readonly keySheet!: KeySheet;
  @query('main') private readonly main!: HTMLElement;
  @state() private route: Route = parseRoute(location.hash);
  @state() private store: LibraryStore | undefined;
  @state() private trouble: Trouble | undefined;
  /** Files that wait to be brought in. */
  @state() private handed: readonly File[] = [];

  override connectedCallback() {
    super.connectedCallback();
    const { signal } = this.listening;
    addEventListener('hashchange', () => this.follow(), { signal });
    addEventListener('error', ({ error }) => this.tellUncaught(error), { signal });
    addEventListener('unhandledrejection', ({ reason }) => this.tellUncaught(reason), { signal });
    watchHandedFiles((files) => this.takeHanded(files), signal);
    void this.open();
  }

  private takeHanded(files: readonly File[]): void {
    this.handed = files;
    location.hash = hrefOf({ at: 'bring-in' });
  }

  private async open(): Promise<void> {
    try {
      const { ledger, copy, broughtBack, copyTroubles } = await openLibrary(
        { onWaiting: () => this.wait() },
        { openMirror, journal: startJournal(), pause: spareTime },
      );
      const store = await LibraryStore.over(ledger, copy, {
        reader: startReader(),
        startFits,
        copyTroubles,
      });
      store.addEventListener('bench-library-change', () => this.takeChange(store));
      store.addEventListener('bench-library-keeping', () => this.requestUpdate());
      this.store = store;
      this.context.setValue(store);
      if (broughtBack.length > 0) store.trouble = broughtBackNotice(broughtBack);
      this.takeChange(store);
      if (location.hash === ROUND_SHORTCUT) startRound(store);
      await import('../components/keeping/keeping-notices.ts');
      if (enteredAddress() !== undefined)
        (await import('../components/sharing/shared-case.ts')).sharedCaseOf(store);
      const { workAhead } = await import('../components/alike/work-ahead.ts');
      workAhead(store);
    } catch (error) {
      this.trouble = troubleOf(error);
    }
  }

  private wait(): void {
    this.trouble = { words: 'Another window holds the library. Close it, and this one goes on.' };
  }

  /**
   * Shows what nobody caught, once while trouble is shown, and tells no element of it: one that fails whenever it draws
   * itself would be drawn, and fail, again and again.
   */
  private tellUncaught(error: unknown): void {
    const { store } = this;
    const reason = String(error);
    if (!this.trouble) this.toldOf.clear();
    else if (this.toldOf.has(reason)) return;
    this.toldOf.add(reason);
    if (!store) this.trouble = troubleOf(error);
    else if (error instanceof StorageError) store.tell(error);
    else {
      store.trouble = troubleOf(error);
      this.takeChange(store);
    }
  }

  private takeChange(store: LibraryStore): void {
    const root = document.documentElement;
    chooseTheme(root, store.choices.theme);
    chooseTextScale(root, store.choices.textScale);
    this.trouble = store.trouble;
    notePort(store.reeds.length > 0);
    this.requestUpdate();
  }

  private follow(): void {
    const before = this.route;
    this.route = parseRoute(location.hash);
    if (this.route.at !== 'bring-in') this.handed = [];
    if (before.at !== this.route.at) this.main.focus();
  }

  override updated(changed: PropertyValues) {
    if (!changed.has('route') && !changed.has('store')) return;
    document.title = `${this.heading} · Hundredths`;
    void placeAt(this.route).load();
  }

  private get heading(): string {
    const { route } = this;
    if (route.at === 'bench') {
      const label = route.reedId && this.store?.reed(route.reedId)?.label;
      return [label, QUESTION_WORDS[route.question]].filter(Boolean).join(', ');
    }
    return placeAt(route).heading;
  }

  private get commands(): readonly Command[] {
    return commandsOf({ store: this.store, showKeys: () => this.keySheet.show() });
  }

  private async handleInvented({ wanted }: InventedReedsEvent) {
    if (!this.store) return;
    const { showInvented, showInventedLife, clearInvented } = await import('./scenario/show-invented.ts');
    const act = { few: showInvented, many: showInventedLife };
    await (wanted ? act[wanted] : clearInvented)(this.store);
  }

  /** From the round back to what it has shown. */
  private readonly handleRoundLeft = () => {
    const { route } = this;
    if (route.at === 'round')
      location.hash = hrefOf({ at: 'bench', reedId: route.reedId, question: 'there' });
  };

  /** A round that is being read has the whole screen. */
  private get isBare(): boolean {
    const { route, store } = this;
    return route.at === 'round' && store?.openRoundOf(route.reedId) !== undefined;
  }

  override render() {
    const { store, route } = this;
    return html`<header ?hidden=${this.isBare}>
        <bench-top-bar
          .at=${route.at}
          .keeping=${store?.keeping ?? { state: 'opening' }}
          .unit=${store?.choices.unit ?? 'hundredths'}
          @bench-unit-step=${() => stepUnit(store)}
        ></bench-top-bar>
      </header>
      <bench-trouble
        .trouble=${this.trouble}
        @bench-trouble-dismiss=${() => store?.dismiss()}
      ></bench-trouble>
      ${store ? html`<bench-keeping-notices ?hidden=${this.isBare} .store=${store}></bench-keeping-notices>` : nothing}
      <main tabindex="-1" @bench-invented-reeds=${this.handleInvented}>
        ${store ? placeAt(route).render({ handed: this.handed, roundLeft: this.handleRoundLeft }) : nothing}
      </main>
      <bench-key-sheet .commands=${this.commands}></bench-key-sheet>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-app': BenchApp;
  }
}
