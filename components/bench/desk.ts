import { Task } from '@lit/task';
import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PassHead } from '../../shared/pass.ts';
import type { Place } from '../../shared/blade.ts';
import type { Reed } from '../../shared/reed.ts';
import { readingAt } from '../../src/answers/reading-at.ts';
import { knownOverallMm } from '../../src/reed/overall-lengths.ts';
import { distanceText, numberText } from '../../src/words/format.ts';
import { FaultWatch } from '../faults/fault-watch.ts';
import type { MapStationOpenEvent } from '../map/map-events.ts';
import { touchedBy } from '../../src/sharing/guest.ts';
import { hrefOf, QUESTION_WORDS, QUESTIONS, type BenchRoute, type Question } from '../frame/routes.ts';
import '../pass-strip/pass-strip.ts';
import { beginRound } from '../round/begin-round.ts';
import type { RoundStartEvent } from '../round/round-start-event.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './beside.ts';
import { fitForDesk, fitKey, type DeskFit } from './desk-fit.ts';
import { styles } from './desk.styles.ts';
import './even.ts';
import './next.ts';
import '../notes/notes.ts';
import { passMarks } from './pass-marks.ts';
import './read.ts';
import './sheet.ts';
import './taken-off.ts';
import './there-now.ts';

/** Questions that are answered before what the reed is set beside is fitted. */
const NEEDS_NONE: readonly Question[] = ['there', 'taken', 'even'];

/** The bench: one reed, its passes on a strip, and the five questions about it. */
@customElement('bench-desk')
export class Desk extends BenchElement {
  static override styles = [controls, styles];

  private readonly library = new LibraryController(this);

  /** Which reed, question and pass. */
  @property({ attribute: false }) route: BenchRoute = { at: 'bench', question: 'there' };

  /** The reed itself, while what it is set beside is still being fitted. */
  @state() private alone: DeskFit | undefined;

  private readonly fit = new Task(this, {
    task: async (_, { signal }) => {
      const { reed } = this;
      const { store } = this.library;
      this.alone = undefined;
      return store && reed
        ? fitForDesk(store, reed, { alone: (fit) => (this.alone = fit), signal })
        : undefined;
    },
    args: () => {
      const { reed } = this;
      // While readings are typed or notes written nothing is fitted here.
      const isFitted = this.route.question !== 'read' && this.route.question !== 'notes';
      const { store } = this.library;
      return [store && reed && isFitted ? fitKey(store, reed) : ''];
    },
  });

  private readonly faults = new FaultWatch(this, this.library, () => this.fit.value?.benched);

  private get reed(): Reed | undefined {
    const { store } = this.library;
    return this.route.reedId === undefined ? store?.reeds[0] : store?.reed(this.route.reedId);
  }

  /** Places of the shown pass and of the one it is compared with. */
  private places(passes: readonly { readonly index: number }[]): { pass: number; earlier: number } {
    const last = passes.length - 1;
    const at = (index: number | undefined, fallback: number) => {
      const found = passes.findIndex((pass) => pass.index === index);
      return index === undefined || found < 0 ? fallback : found;
    };
    const pass = at(this.route.pass, last);
    return { pass, earlier: at(this.route.before, Math.max(0, pass - 1)) };
  }

  private handleEarlier(event: Event & { index?: number }) {
    const { route, reed } = this;
    if (!reed || event.index === undefined) return;
    const passes = this.library.store?.passesOf(reed.id) ?? [];
    const pass = passes[this.places(passes).pass]!.index;
    location.hash = hrefOf({ ...route, reedId: reed.id, question: 'taken', pass, before: event.index });
  }

  private async handleRoundStart({ plan }: RoundStartEvent) {
    const { store } = this.library;
    const { reed } = this;
    if (!store || !reed || !(await beginRound(store, reed.id, plan))) return;
    location.hash = hrefOf({ at: 'round', reedId: reed.id });
  }

  /** Where the sheet of readings shall open, and in which pass. */
  @state() private opened: Place | undefined;

  /** A station of any map of this pass opens its reading for correction, in the pass that it was read in. */
  private handleStation(event: MapStationOpenEvent) {
    const { reed, library, route } = this;
    const benched = (this.fit.value ?? this.alone)?.benched;
    const isOtherPass = event
      .composedPath()
      .some((target) => (target as Element).localName === 'bench-pass-film');
    if (!reed || !library.store || !benched || isOtherPass || benched.reed.id !== reed.id) return;
    const passes = library.store.passesOf(reed.id);
    const reading = readingAt(benched, this.places(passes).pass, event.place);
    if (!reading) return;
    this.opened = reading.place;
    location.hash = hrefOf({ ...route, reedId: reed.id, question: 'read', pass: reading.passIndex });
  }

  override updated(changed: PropertyValues<this>) {
    // On a phone the tabs are wider than the page.
    if (changed.has('route')) {
      const current = this.renderRoot.querySelector('.tabs [aria-current]');
      current?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    }
    this.toggleAttribute('data-sheet', this.route.question === 'sheet');
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { reed } = this;
    if (!reed) {
      return html`<div class="empty">
        <h1>Nothing on the bench</h1>
        <p>Choose a reed in the <a href=${hrefOf({ at: 'case' })}>case</a>.</p>
      </div>`;
    }
    const passes = store.passesOf(reed.id);
    return html`${this.renderHead(reed, passes)} ${this.renderTabs(reed)} ${this.renderPlace(reed, passes)}`;
  }

  private renderPlace(reed: Reed, passes: readonly PassHead[]) {
    const pass = passes[this.places(passes).pass];
    if (this.route.question === 'notes') return html`<bench-notes .reed=${reed} .pass=${pass}></bench-notes>`;
    if (this.route.question === 'read')
      return html`<bench-read
        .reed=${reed}
        .pass=${pass}
        .opened=${this.opened}
        @bench-read-opened=${() => (this.opened = undefined)}
      ></bench-read>`;
    return this.renderQuestion(passes);
  }

  private renderHead(reed: Reed, passes: readonly PassHead[]) {
    const { pass, earlier } = this.places(passes);
    const shown = passes[pass];
    const { writing } = this.library;
    const overallMm = knownOverallMm(passes, pass);
    const store = this.library.store!;
    const trials = store.trialsOf(reed.id);
    const isLent = store.lent.has(reed.id);
    const hasSides =
      !isLent && store.snapshot.disagreements.some((sides) => touchedBy(sides.slice(0, 1)).includes(reed.id));
    const style =
      { 'long-scrape': 'Long scrape', 'short-scrape': 'Short scrape' }[reed.styleId] ?? 'Own style';
    const facts = [
      overallMm !== undefined && `${distanceText(overallMm, writing)} overall`,
      shown?.wetness &&
        `${shown.wetness}${shown.soakMin === undefined ? '' : ` ${numberText(shown.soakMin, 0, writing)} min`}`,
    ].filter(Boolean);
    return html`<header>
      <div class="reed">
        <h1>${reed.label}</h1>
        <p class="facts">
          ${style}${reed.invented ? ', invented' : ''}${reed.favourite ? ', favourite' : ''}${isLent ? ', of the shared case, which you read' : ''}<br />${facts.join(', ')}
        </p>
        ${hasSides ? html`<p class="facts"><a href=${hrefOf({ at: 'setup' })}>Two sides of it: choose one</a></p>` : nothing}
      </div>
      <bench-pass-strip
        .passes=${passMarks({ reed, passes, trials, question: this.route.question, shown: pass, earlier, writing })}
        @bench-pass-before=${this.handleEarlier}
      ></bench-pass-strip>
    </header>`;
  }

  private renderTabs(reed: Reed) {
    const store = this.library.store!;
    const { pass, before, question } = this.route;
    const tab = (name: Question, apart = false) =>
      html`<a
        class=${apart ? 'apart' : ''}
        href=${hrefOf({
          at: 'bench',
          reedId: reed.id,
          question: name,
          ...(pass !== undefined && { pass }),
          ...(before !== undefined && { before }),
        })}
        aria-current=${question === name ? 'page' : nothing}
        >${QUESTION_WORDS[name]}</a
      >`;
    return html`<nav class="tabs" aria-label="Questions">
      ${QUESTIONS.map((name) => tab(name))} ${tab('notes', true)} ${tab('read')} ${tab('sheet')}
      ${store.lent.has(reed.id) ? nothing : html`<a href=${hrefOf({ at: 'round', reedId: reed.id })}>${store.openRoundOf(reed.id) ? 'Go on' : 'Start a round'}</a>`}
    </nav>`;
  }

  private renderQuestion(passes: readonly PassHead[]) {
    if (passes.every(({ readingCount }) => readingCount === 0)) {
      if (this.library.store!.lent.has(this.reed!.id))
        return html`<div class="empty"><p>Nothing is read yet.</p></div>`;
      return html`<div class="empty">
        <p>Nothing is read yet.</p>
        <p>
          <a href=${hrefOf({ at: 'round', reedId: this.reed!.id })}>Start a round</a>,
          <a href=${hrefOf({ at: 'bring-in' })}>bring in readings</a>, or
          <a href=${hrefOf({ at: 'bench', reedId: this.reed!.id, question: 'read' })}>type them</a>.
        </p>
      </div>`;
    }
    const notice =
      this.route.question === 'sheet' ? nothing : this.faults.render(passes[this.places(passes).pass]);
    return html`${notice}
      <div @bench-map-station-open=${this.handleStation}>${this.renderFit()}</div>`;
  }

  /** The last fit, while the same reed is fitted anew: what another reed had must not stand under this one's name. */
  private get lastFit(): DeskFit | undefined {
    const { value } = this.fit;
    return value?.benched.reed.id === this.reed?.id ? value : undefined;
  }

  private renderFit() {
    return this.fit.render({
      initial: () => html`<p class="refining" role="status">Fitting</p>`,
      pending: () => {
        const fitted = (NEEDS_NONE.includes(this.route.question) && this.alone) || this.lastFit;
        return fitted ? this.renderFitted(fitted) : html`<p class="refining" role="status">Fitting</p>`;
      },
      complete: (fitted) => (fitted ? this.renderFitted(fitted) : nothing),
      error: (error) => html`<p class="empty">${error instanceof Error ? error.message : String(error)}</p>`,
    });
  }

  private renderFitted({ benched, favourites, original, followed, canes }: DeskFit) {
    const [favourite] = favourites;
    const { pass, earlier } = this.places(benched.passes);
    const { writing } = this.library;
    switch (this.route.question) {
      case 'sheet':
        return html`<bench-sheet
          .benched=${benched}
          .pass=${pass}
          .favourite=${favourite}
          .followed=${followed}
          .writing=${writing}
        ></bench-sheet>`;
      case 'taken':
        return html`<bench-taken-off
          .original=${original}
          .benched=${benched}
          .pass=${pass}
          .earlier=${earlier}
          .writing=${writing}
        ></bench-taken-off>`;
      case 'even':
        return html`<bench-even
          .benched=${benched}
          .pass=${pass}
          .original=${original}
          .writing=${writing}
        ></bench-even>`;
      case 'beside':
        return html`<bench-beside
          .original=${original}
          .benched=${benched}
          .pass=${pass}
          .followed=${followed}
          .canes=${canes}
          .writing=${writing}
        ></bench-beside>`;
      case 'next':
        return html`<bench-next
          .original=${original}
          .benched=${benched}
          .pass=${pass}
          .followed=${followed}
          .canes=${canes}
          .writing=${writing}
        ></bench-next>`;
      default:
        return html`<bench-there-now
          ?can-start=${pass === benched.passes.length - 1 && !this.library.store!.openRoundOf(benched.reed.id)}
          @bench-round-start=${this.handleRoundStart}
          .benched=${benched}
          .pass=${pass}
          .favourite=${favourite}
          .favourites=${favourites}
          .original=${original}
          .writing=${writing}
        ></bench-there-now>`;
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-desk': Desk;
  }
}
