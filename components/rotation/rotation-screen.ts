import { css, html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { dayNumber } from '../../shared/moment.ts';
import { timesPlayed } from '../../src/reed/waiting.ts';
import { inRotation } from '../../src/rotation/in-rotation.ts';
import { lasting } from '../../src/rotation/lifetimes.ts';
import { livesOf, type Life } from '../../src/rotation/lives.ts';
import { proposals, type Proposal } from '../../src/rotation/proposals.ts';
import { adviceFor } from '../../src/rotation/suggest.ts';
import { countWord, sentence } from '../../src/words/figure-words.ts';
import { unbroken } from '../bench/question-element.ts';
import { shortDay } from '../../src/words/day-words.ts';
import { hrefOf } from '../frame/routes.ts';
import { marks } from '../marks/marks.styles.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { SlotBodies } from '../case/slot-bodies.ts';
import '../caution/caution.ts';
import './engagement-list.ts';
import './lasting-chart.ts';
import './lives-chart.ts';
import './played-form.ts';
import './slot-form.ts';

/** As many lives as one looks over; the rest come at a word. */
const MOST_ROWS = 8;

/** Which reed for which day, what each is worn to, and where there is a gap. */
@customElement('bench-rotation')
export class RotationScreen extends BenchElement {
  static override styles = [
    controls,
    tables,
    forms,
    pages,
    marks,
    css`
      .page {
        gap: var(--bench-space-4);
      }
      h1 {
        max-width: none;
      }
      .under {
        display: grid;
        grid-template-columns: minmax(0, 1.35fr) minmax(0, 1fr);
        gap: var(--bench-space-4) 28px;
        align-items: start;
      }
      h2 button {
        font: var(--bench-font-caption);
      }
      @media (max-width: 1000px) {
        .under {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private readonly bodies = new SlotBodies(this);
  @state() private showsAll = false;

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { writing } = this.library;
    const {
      reed: reeds,
      use: uses,
      trial: trials,
      pass: passes,
      engagement: engagements,
      air,
    } = store.snapshot.live;
    const now = store.ledger.now();
    const rotation = inRotation({ reeds, uses, trials }, now);
    const lived = lasting(reeds, timesPlayed(uses, trials));
    const here = [...air].sort((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1);
    const advised = engagements
      .filter(({ at }) => dayNumber(at) >= dayNumber(now))
      .map((engagement) => ({
        engagement,
        advice: adviceFor(engagement, {
          rotation,
          reeds,
          lasting: lived,
          ...(here && { here }),
          now,
          writing,
        }),
      }));
    const proposed = proposals(advised, lived, writing);
    const lives = livesOf({ reeds, passes, trials, uses }, rotation, writing);
    return html`<div class="page">
      <h1>${this.words(lives, proposed)}</h1>
      ${this.renderLives(lives, proposed, dayNumber(now))}
      <div class="under">
        <section class="plate">
          <h2>How long your reeds last <small>hours played</small></h2>
          <bench-lasting-chart .lasting=${lived} .decimal=${writing.decimal}></bench-lasting-chart>
        </section>
        <section>
          <bench-engagements .proposals=${proposed}></bench-engagements>
          <details class="played">
            <summary>Played</summary>
            <bench-played-form .reeds=${rotation.map(({ reed }) => reed)}></bench-played-form>
          </details>
          <details>
            <summary>Slots of the case</summary>
            <bench-slot-form .reeds=${lives.map(({ reed }) => reed)}></bench-slot-form>
          </details>
        </section>
      </div>
      <bench-caution about="mouth mould"></bench-caution>
    </div>`;
  }

  private words(lives: readonly Life[], proposed: readonly Proposal[]) {
    const playable = lives.filter(({ reed }) => reed.state !== 'blank' && reed.state !== 'scraping').length;
    const scraping = lives.filter(({ reed }) => reed.state === 'scraping').length;
    if (lives.length === 0) return html`No reed is alive. <em>Write down an engagement all the same.</em>`;
    const bench =
      scraping > 0 ? `, ${countWord(scraping)} ${scraping === 1 ? 'is' : 'are'} on the bench` : '';
    const count =
      playable === 0
        ? `No reed can be played yet${bench}.`
        : `${sentence(countWord(playable))} ${playable === 1 ? 'reed' : 'reeds'} can be played${bench}.`;
    const sure = proposed.find(({ isSure }) => isSure);
    const gap = proposed.find(({ isSure }) => !isSure);
    const answers = sure?.first ? `${sure.first.row.reed.label} is for ${shortDay(sure.engagement.at)}` : '';
    const open = gap ? `nothing is sure yet for ${shortDay(gap.engagement.at)}` : '';
    const said = [answers, open].filter(Boolean).join('; ');
    return html`${count} ${said ? html`<em>${unbroken(sentence(said))}.</em>` : nothing}`;
  }

  /** Small pictures of the reeds whose lives are shown, as far as they are drawn. */
  private bodiesOf(lives: readonly Life[]): ReadonlyMap<string, string> {
    const reeds = lives.map(({ reed }) => reed);
    this.bodies.follow(this.library.store!, reeds);
    return new Map(
      reeds.flatMap(({ id }) => {
        const body = this.bodies.of(id, this.theme.name);
        return body ? [[id, body]] : [];
      }),
    );
  }

  private renderLives(lives: readonly Life[], proposed: readonly Proposal[], today: number) {
    const needed = new Set(
      proposed.flatMap(({ first, second }) => [first?.row.reed.id, second?.row.reed.id]),
    );
    const ordered = [
      ...lives.filter(({ reed }) => needed.has(reed.id)),
      ...lives.filter(({ reed }) => !needed.has(reed.id)),
    ];
    const shown = this.showsAll || lives.length <= MOST_ROWS ? lives : ordered.slice(0, MOST_ROWS);
    const rest = lives.length - shown.length;
    return html`<section class="plate">
      <h2>
        Lives <small>a line a reed, by day</small>
        ${
          rest > 0
            ? html`<small
                ><button @click=${() => (this.showsAll = true)}>${rest} more</button>
                <a href=${hrefOf({ at: 'find' })}>all reeds</a></small
              >`
            : nothing
        }
      </h2>
      <bench-lives-chart
        .lives=${shown}
        .bodies=${this.bodiesOf(shown)}
        .proposals=${proposed}
        .today=${today}
        .decimal=${this.library.choices.decimal}
      ></bench-lives-chart>
    </section>`;
  }
}
