import { html, nothing, type PropertyValues } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { listed } from '../../src/words/figure-words.ts';
import { blendFigure, figuresOf } from '../../src/answers/record/reed-figures.ts';
import { BLEND_MM } from '../../src/figures/crossing.ts';
import { reedOfLastTime } from '../../src/reed/last-time.ts';
import { amountText, UNIT_WORDS } from '../../src/words/format.ts';
import { caseSlots, sayCase } from '../../src/rotation/case-slots.ts';
import { unbroken } from '../bench/question-element.ts';
import type { BladeMapData } from '../map/map-data.ts';
import '../map/blade-map.ts';
import { hrefOf } from '../frame/routes.ts';
import type { Spine } from '../passes/spine-multiples.ts';
import '../passes/spine-multiples.ts';
import '../picture/picture.ts';
import { SMALL } from '../relief/small-bodies.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { mainActs } from '../theme/forms.styles.ts';
import '../caution/caution.ts';
import './blend-scale.ts';
import type { BlendMark } from './blend-scale.ts';
import './case-aside.ts';
import { styles } from './case.styles.ts';
import { elsewhere } from './elsewhere.ts';
import { InventedReedsEvent } from './invented-reeds-event.ts';
import './new-reed.ts';
import type { NewReed } from './new-reed.ts';
import { slotFacts } from './slot-facts.ts';
import { SlotBodies } from './slot-bodies.ts';
import { BLANK, slotPicture } from './slot-picture.ts';
import { spineOf } from './spine-of.ts';

/** A case has at least this many slots. */
const LEAST_SLOTS = 8;

/** Reeds without a slot are drawn as long as there are not more than this in all. */
const MOST_DRAWN = 20;
/** Retired reeds that are named under the case. */
const MOST_NAMED = 6;

/**
 * The case as it looks with the lid open: every reed with its picture, and what may be done next.
 *
 * @event bench-invented-reeds - The invented reeds are wanted, or are to be cleared away.
 */
@customElement('bench-case')
export class CaseScreen extends BenchElement {
  static override styles = [controls, mainActs, styles];

  private readonly library = new LibraryController(this);
  @query('bench-new-reed') private readonly newReed!: NewReed;
  @state() private pictures: ReadonlyMap<string, BladeMapData> = new Map();
  private readonly bodies = new SlotBodies(this);
  @state() private blends: ReadonlyMap<string, BlendMark['figure']> = new Map();
  @state() private spines: ReadonlyMap<string, Spine> = new Map();

  override updated(changed: PropertyValues<this>) {
    super.updated(changed);
    const { store } = this.library;
    if (store)
      this.bodies.follow(store, [...this.inCase, ...this.lastRetired], (benched) => this.take(benched));
  }

  private take(benched: FittedReed) {
    const { id } = benched.reed;
    const picture = slotPicture(benched);
    if (picture) this.pictures = new Map([...this.pictures, [id, picture]]);
    const spine = spineOf(benched);
    if (spine) this.spines = new Map([...this.spines, [id, spine]]);
    if (!benched.model) return;
    const { value, u, ...blend } = blendFigure(figuresOf({ benched, pass: benched.passes.length - 1 }));
    if (value !== undefined && u !== undefined)
      this.blends = new Map([...this.blends, [id, { ...blend, value, u }]]);
  }

  private handleInvented(wanted: InventedReedsEvent['wanted']) {
    this.dispatchEvent(new InventedReedsEvent(wanted));
  }

  /** Arrows go over the slots, as the help under them says. */
  private handleKey(event: KeyboardEvent) {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (step === undefined) return;
    const links = [...this.renderRoot.querySelectorAll<HTMLAnchorElement>('.slots a')];
    links[links.findIndex((link) => link === this.shadowRoot?.activeElement) + step]?.focus();
    event.preventDefault();
  }

  private get alive(): readonly Reed[] {
    return this.library.store!.reeds.filter(({ state: now }) => now !== 'retired');
  }

  private get slots(): readonly (Reed | undefined)[] {
    return caseSlots(this.alive, LEAST_SLOTS, MOST_DRAWN);
  }

  private get inCase(): readonly Reed[] {
    return this.slots.filter((reed) => reed !== undefined);
  }

  /** The reeds retired last, the newest first. */
  private get lastRetired(): readonly Reed[] {
    return this.library
      .store!.reeds.filter(({ state: now }) => now === 'retired')
      .sort((a, b) => (b.retirement?.on ?? '').localeCompare(a.retirement?.on ?? ''))
      .slice(0, MOST_NAMED);
  }

  /** The reed that the likeliest act is about: the one of last time. */
  private get onBench(): Reed | undefined {
    const { store } = this.library;
    const passes = this.alive.flatMap(({ id }) => store!.passesOf(id));
    return reedOfLastTime(this.alive, passes, store!.snapshot.live.round);
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const isEmpty = store.reeds.length === 0;
    return html`<div class="page">
        <div class="left">
          <h1>${this.renderSentence()}</h1>
          <div class="case">${isEmpty ? this.renderFirst() : this.renderSlots()}</div>
          ${this.renderActs()} ${isEmpty ? nothing : this.renderWays()} ${this.renderSpines()}
          <bench-caution about="knife dust"></bench-caution>
        </div>
        <bench-case-aside>${this.renderBlends()}</bench-case-aside>
      </div>
      <bench-new-reed></bench-new-reed>`;
  }

  private renderSentence() {
    const { alive } = this;
    if (alive.length === 0) return 'The case is empty.';
    const favourites = this.inCase.filter(({ favourite }) => favourite).map(({ label }) => label);
    const kept = `${listed(favourites)} ${favourites.length === 1 ? 'is your favourite' : 'are your favourites'}.`;
    return html`${sayCase(alive.length, this.inCase.length)}
    ${favourites.length > 0 ? html`<em>${kept}</em>` : nothing}`;
  }

  private renderFirst() {
    return html`<div class="first">
      <bench-blade-map plain blank .data=${BLANK}></bench-blade-map>
      <p>Nothing here yet. Read a reed, bring in a sheet, or look at four invented ones.</p>
      <button @click=${() => this.handleInvented('few')}>Look at invented reeds</button>
      <button class="quiet" @click=${() => this.handleInvented('many')}>
        or at a working life of 300 invented ones
      </button>
      ${elsewhere()}
    </div>`;
  }

  private renderSlots() {
    const { slots, lastRetired, onBench } = this;
    const { reeds } = this.library.store!;
    const retired = reeds.filter(({ state: now }) => now === 'retired').length;
    const elsewhere = this.alive.length - this.inCase.length;
    return html`<bench-picture
        caption=${`The case: thickness of blade A of each reed, pale is thin, ${UNIT_WORDS[this.library.writing.unit].caption}`}
        file-name="the case"
        ><ul class="slots" aria-label="Reeds" @keydown=${this.handleKey}>
          ${slots.map((reed, i) =>
            reed
              ? this.renderSlot(reed, reed === onBench)
              : html`<li data-empty>
                  <span class="arch"></span>
                  <p class="empty"><span class="said">slot ${i + 1} </span>empty</p>
                </li>`,
          )}
        </ul></bench-picture
      >
      <div class="foot">
        <span>As it looks with the lid open, blade A up, side 1 left. Arrow keys move, Enter opens.</span>
        ${elsewhere > 0 ? html`<a href=${hrefOf({ at: 'find' })}>${elsewhere} more without a slot</a>` : nothing}
        ${
          retired > 0
            ? html`<span
                >Retired ${retired}:
                ${lastRetired.map((reed) => html`<a href=${this.benchOf(reed)}>${unbroken(reed.label)}</a> `)}
                ${retired > lastRetired.length ? html`<a href=${hrefOf({ at: 'find' })}>all</a>` : nothing}</span
              >`
            : nothing
        }
      </div>`;
  }

  private benchOf(reed: Reed): string {
    return hrefOf({ at: 'bench', reedId: reed.id, question: 'there' });
  }

  private renderSlot(reed: Reed, isOnBench: boolean) {
    return html`<li ?data-bench=${isOnBench}>
      <a href=${this.benchOf(reed)}>
        ${this.renderBody(reed)}
        <span class="bars" ?data-favourite=${reed.favourite !== undefined}></span>
        <span class="label" part="words">${reed.label}</span>
        ${slotFacts(this.library.store!, reed, this.library.writing).map((fact) => html`<span class="fact" part="words">${fact}</span>`)}
      </a>
    </li>`;
  }

  /** The reed as a body, and flat until that is drawn, or where it cannot be. */
  private renderBody(reed: Reed) {
    const body = this.bodies.of(reed.id, this.theme.name);
    if (body)
      return html`<img part="picture" alt="" width=${SMALL.width} height=${SMALL.height} src=${body} />`;
    const picture = this.pictures.get(reed.id);
    return html`<bench-blade-map
      plain
      ?blank=${this.library.store!.passesOf(reed.id).length === 0}
      .data=${picture ?? BLANK}
      aria-hidden="true"
    ></bench-blade-map>`;
  }

  private renderMain({ id, label }: Reed) {
    const store = this.library.store!;
    const act = (href: string, words: string) =>
      html`<a class="main" href=${href}>${words} ${unbroken(label)}</a>`;
    if (store.lent.has(id)) return act(hrefOf({ at: 'bench', reedId: id, question: 'there' }), 'Look at');
    const words = store.openRoundOf(id) ? 'Go on with' : 'Start a round on';
    return act(hrefOf({ at: 'round', reedId: id }), words);
  }

  private renderActs() {
    const { onBench } = this;
    const invented = this.library.store!.reeds.some((reed) => reed.invented);
    return html`<div class="acts">
      ${onBench ? this.renderMain(onBench) : nothing}
      <button @click=${() => this.newReed.show()}>New reed</button>
      <a href=${hrefOf({ at: 'bring-in' })}>Bring in readings</a>
      ${
        invented
          ? html`<span class="clear"
              >Reeds marked invented are examples.
              <button @click=${() => this.handleInvented(false)}>Clear them away</button></span
            >`
          : nothing
      }
    </div>`;
  }

  /** Where the whole library is looked at. */
  private renderWays() {
    return html`<nav class="ways" aria-label="All reeds">
      <a href=${hrefOf({ at: 'rotation' })}>Rotation and engagements</a>
      <a href=${hrefOf({ at: 'alike' })}>What good reeds share</a>
      <a href=${hrefOf({ at: 'find' })}>Find a reed, print labels</a>
      <a href=${hrefOf({ at: 'lesson', reedIds: [] })}>In a lesson</a>
    </nav>`;
  }

  private renderBlends() {
    const marks = [...this.inCase, ...this.lastRetired].flatMap((reed) => {
      const figure = this.blends.get(reed.id);
      const { favourite, label, state: now } = reed;
      return figure
        ? [{ label, figure, favourite: favourite !== undefined, retired: now === 'retired' }]
        : [];
    });
    if (marks.length < 2) return nothing;
    const { writing } = this.library;
    return html`<section>
      <h2>
        Blend of the last reeds
        <small>where the centre passes ${amountText(BLEND_MM, writing)}, mm from the tip</small>
      </h2>
      <bench-picture
        caption=${`Where the centre passes ${amountText(BLEND_MM, writing)}, mm from the tip`}
        file-name="blends"
        ><bench-blend-scale .marks=${marks} .writing=${writing}></bench-blend-scale
      ></bench-picture>
    </section>`;
  }

  private renderSpines() {
    const spines = this.library.store!.reeds.flatMap(({ id }) => this.spines.get(id) ?? []);
    if (spines.length < 2) return nothing;
    const { unit, decimal } = this.library.writing;
    return html`<details class="spines">
      <summary>The spines of all reeds</summary>
      <bench-picture
        caption=${`Spines of all reeds, at one scale, ${UNIT_WORDS[unit].caption}`}
        file-name="spines"
        ><bench-spine-multiples .spines=${spines} .unit=${unit} .decimal=${decimal}></bench-spine-multiples
      ></bench-picture>
    </details>`;
  }
}
