import { html, type TemplateResult } from 'lit';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { Id } from '../../shared/ids.ts';
import type { Settings } from '../../shared/settings.ts';
import { bladeTurn } from '../../src/round/blade-turn.ts';
import { oddAtEnd, oddQuestion, type Oddness } from '../../src/round/oddness.ts';
import { typedZero } from '../../src/round/typed-zero.ts';
import type { PadKey } from '../../src/round/pad-keys.ts';
import type { PadCommand } from './pad-typing.ts';
import { pocketKeys, type SideKey } from './pocket-keys.ts';
import * as views from './pocket-views.ts';
import type { Outcome } from './round-desk.ts';
import type { Outline } from './round-outline.ts';
import { inWords } from './round-words.ts';
import { lastTaken, spoken, type HeardHooks, type RoundView } from './round-views.ts';

/** What the round does for its own keys. */
export interface PocketHooks extends HeardHooks {
  readonly tap: (key: PadKey) => void;
  /** A question on the screen was answered with yes, or passed on. */
  readonly answer: () => void;
  readonly press: (command: PadCommand) => void;
  /** What the gauge shows now, as it is written. */
  readonly live: () => string;
  /** Finishes the round with a zero as typed; empty for none. */
  readonly finish: (zeroText: string) => void;
  readonly outline: (blade?: Blade) => Outline;
  /** The blade that is read, which can be touched. */
  readonly picture: TemplateResult;
  readonly digits: NonNullable<Settings['digits']>;
  readonly mark: '.' | ',';
}

/** More odd readings than these are counted, not told one by one. */
const MOST_TOLD = 8;

/**
 * A round in the hand: large keys of its own, one question at a time. Knows which questions were answered; what is read
 * is the desk's. Typing, or a gauge, goes on past any question.
 */
export class PocketRound {
  private readonly changed: () => void;
  private turnedTo: Blade | undefined;
  private saidNo = false;
  private passedOn: Id | undefined;
  /** A zero is being read: at the turn or at the end. */
  private zeroing = false;
  private isBelowZero = false;
  private zero: string | undefined;

  constructor(changed: () => void) {
    this.changed = changed;
  }

  /** Enter, with this text typed. @returns Whether it answered something here. */
  enter(view: RoundView): boolean {
    if (this.zeroing) return this.takeZero(view);
    if (view.typed !== '') return false;
    const odd = this.oddOne(view);
    if (odd) return this.set(() => (this.passedOn = odd.taken.id));
    const turn = this.turn(view);
    return turn !== undefined && this.set(() => (this.turnedTo = turn));
  }

  /** A reading of a gauge while a zero is asked for. @returns Whether it was taken as the zero. */
  hear(thicknessMm: number, view: RoundView): boolean {
    return this.zeroing && this.takeZero({ ...view, typed: spoken(view, thicknessMm) });
  }

  /** The zero as typed, for the end of the round. */
  get zeroText(): string | undefined {
    return this.zero;
  }

  render(view: RoundView, hooks: PocketHooks): TemplateResult {
    if (this.zeroing) return this.renderZero(view, hooks);
    const odd = this.oddOne(view);
    if (odd) return this.renderOdd(view, odd, hooks);
    if (!view.desk.here) return this.renderEnd(view, hooks);
    const turn = this.turn(view);
    if (turn && view.typed === '') return this.renderTurn(view, turn, hooks);
    return html`${views.pocketPlace(view, hooks.picture)} ${views.pocketHeard(view, hooks)}
    ${this.renderKeys(view, hooks)}`;
  }

  private set(change: () => void): true {
    change();
    this.changed();
    return true;
  }

  private turn({ desk }: RoundView): Blade | undefined {
    const blade = desk.isDetour ? undefined : bladeTurn(desk.state);
    return blade === this.turnedTo ? undefined : blade;
  }

  /** The reading just taken, where it is odd and no answer was given. */
  private oddOne({ desk, typed, unclear }: RoundView) {
    const taken = lastTaken(desk);
    const odd = taken && desk.oddnessOf(taken.id);
    return odd && typed === '' && !unclear && taken.id !== this.passedOn ? { taken, odd } : undefined;
  }

  private takeZero({ typed, count, desk }: RoundView): true {
    const text = typed === '' ? '0' : `${this.isBelowZero ? '-' : ''}${typed}`;
    if (typedZero(text, count) === undefined) return true;
    if (desk.here) desk.note(`Zero when the reed was turned over: ${text} ${count}.`);
    return this.set(() => {
      this.zero = desk.here ? this.zero : text;
      this.zeroing = false;
    });
  }

  private askZero() {
    this.set(() => {
      this.zeroing = true;
      this.isBelowZero = false;
    });
  }

  private renderKeys(view: RoundView, { tap, press, live, digits, mark }: PocketHooks) {
    const { desk, typed } = view;
    const last = desk.last?.kind === 'taken' ? spoken(view, desk.last.thicknessMm) : '';
    const taking = typed || live();
    return pocketKeys(
      digits,
      mark,
      [
        { words: 'Back', under: 'one', press: () => press('back') },
        { words: 'Skip', under: 'this place', press: () => press('skip') },
        {
          words: 'Again',
          under: last || 'the last',
          press: () => press('again'),
          disabled: last === '' && !desk.isDetour,
        },
        {
          words: desk.isDetour && !taking ? 'Go on' : 'Take',
          under: taking,
          press: () => tap({ kind: 'enter' }),
          main: true,
        },
      ],
      tap,
    );
  }

  private renderZero(view: RoundView, hooks: PocketHooks) {
    const { typed } = view;
    const shown = `${this.isBelowZero ? '−' : ''}${typed || '0'}`;
    const keys: [SideKey, SideKey, SideKey, SideKey] = [
      { words: '+ or −', press: () => this.set(() => (this.isBelowZero = !this.isBelowZero)) },
      { words: 'No zero', press: () => this.set(() => (this.zeroing = false)) },
      { words: 'Clear', press: () => hooks.press('back') },
      { words: 'Take', under: shown, press: () => hooks.tap({ kind: 'enter' }), main: true },
    ];
    return html`<section class="question" aria-label="Zero">
        <h1>Close the gauge on the bare tongue. What does it read?</h1>
        <p class="odd-number"><b>${shown}</b><span>${view.count}</span></p>
      </section>
      ${views.hiddenField(view, hooks)} ${pocketKeys(hooks.digits, hooks.mark, keys, hooks.tap)}`;
  }

  private renderTurn(view: RoundView, blade: Blade, hooks: PocketHooks) {
    const { desk } = view;
    const before = BLADES.find((other) => other !== blade) ?? blade;
    const read = desk.state.stations.filter(
      ({ station, readings }) => station.blade === before && readings.length > 0,
    );
    const nOdd = desk.oddPlaces.filter(({ station }) => station.blade === before).length;
    const done = `${before} is done: ${read.length} read, ${inWords(nOdd)} odd.`;
    return html`${views.turnView(blade, this.saidNo, hooks.outline(blade), done, {
      yes: () => hooks.answer(),
      no: () => this.set(() => (this.saidNo = true)),
      zero: () => this.askZero(),
    })}
    ${views.hiddenField(view, hooks)}`;
  }

  private renderOdd(
    view: RoundView,
    { taken, odd }: { taken: Extract<Outcome, { kind: 'taken' }>; odd: Oddness },
    hooks: PocketHooks,
  ) {
    const { desk } = view;
    const { slip } = odd;
    const again = { words: 'Read again', press: () => hooks.press('again') };
    const asRead = { words: `${spoken(view, taken.thicknessMm)}, as read`, press: () => desk.confirm() };
    const goOn = { words: 'Go on', under: 'leave it open', press: () => hooks.answer() };
    const keys: SideKey[] = slip
      ? [
          {
            words: `It is ${spoken(view, slip.thicknessMm)}`,
            press: () => desk.correct(slip.thicknessMm),
            main: true,
          },
          asRead,
          again,
          goOn,
        ]
      : [{ ...again, main: true }, asRead, goOn];
    return html`${views.oddView(view, taken, oddQuestion(odd, view), hooks.outline(taken.station.blade), keys)}
    ${views.hiddenField(view, hooks)}`;
  }

  private oddTold(view: RoundView): string[] {
    const { desk } = view;
    const all = desk.oddPlaces.flatMap(({ station, readings }) =>
      readings.flatMap(({ id, thicknessMm }) => {
        const odd = desk.oddnessOf(id);
        return odd ? [oddAtEnd(station, thicknessMm, odd, view)] : [];
      }),
    );
    const left = all.length - MOST_TOLD;
    return left > 0 ? [...all.slice(0, MOST_TOLD), `And ${left} more.`] : all;
  }

  private renderEnd(view: RoundView, hooks: PocketHooks) {
    const { desk } = view;
    const [firstOdd] = desk.oddPlaces;
    const zero = { words: 'Zero again', press: () => this.askZero() };
    const keep = {
      words: 'Keep these',
      under: this.zero === undefined ? 'without a zero' : '',
      press: () => hooks.finish(this.zero ?? ''),
      disabled: desk.nWaiting > 0,
    };
    const keys: SideKey[] =
      this.zero === undefined ? [{ ...zero, main: true }, keep] : [{ ...keep, main: true }, zero];
    const { offered } = desk;
    const readAgain = offered.length > 0 && {
      words: `Read ${inWords(offered.length)} again`,
      under: 'to see whether the zero crept',
      press: () => desk.answerOffer(offered),
    };
    const readOdd = firstOdd && {
      words: 'Read the odd',
      under: 'one by one',
      press: () => desk.goTo(firstOdd.station),
    };
    const zeroWords = this.zero === undefined ? '' : `Zero: ${this.zero}.`;
    const outlines = BLADES.filter((blade) =>
      desk.state.stations.some(({ station }) => station.blade === blade),
    );
    return html`${views.pocketEnd(
      view,
      outlines.map((blade) => hooks.outline(blade)),
      this.oddTold(view),
      zeroWords,
      [...keys, ...(readOdd ? [readOdd] : []), ...(readAgain ? [readAgain] : [])],
    )}
    ${views.hiddenField(view, hooks)}`;
  }
}
