import { min } from 'd3-array';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { dayOf } from '../../shared/moment.ts';
import type { Life } from '../../src/rotation/lives.ts';
import type { Proposal } from '../../src/rotation/proposals.ts';
import { EVENING_HOURS } from '../../src/rotation/suggest.ts';
import { quantityText, type NumberFormat } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { shortDay } from '../../src/words/day-words.ts';
import { hrefOf } from '../frame/routes.ts';
import { dayRuler, weeksOf } from '../marks/axes.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures, type MarkKind } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { usualLife } from './usual-life.ts';
import { livesFrame, type LivesFrame } from './lives-frame.ts';
import { days, livesTable } from './lives-table.ts';

const CAPTION =
  'The lives of the reeds by day: dashed a blank, thick where it was played, as high as its hours; upright lines are engagements';
const HIGHEST_HOURS = 3;
/** What is further ahead stands in the list alone. */
const MOST_AHEAD_DAYS = 35;

interface Shown {
  readonly stop: Stop;
  readonly drawn: 'play' | 'concert' | MarkKind;
  readonly hours?: number;
}

/** Every living reed as a line of its life by day, with what is ahead of it. */
@customElement('bench-lives-chart')
export class LivesChart extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      .life {
        stroke: var(--bench-ink);
        stroke-width: 1.4;
      }
      .blank {
        stroke: var(--bench-ink2);
        stroke-width: 1.4;
        stroke-dasharray: 5 3.5;
      }
      .play {
        fill: var(--bench-ink3);
      }
      .concert {
        fill: var(--bench-ink);
      }
      .bracket {
        stroke: var(--bench-ink2);
      }
      .engagement {
        stroke: var(--bench-ink);
        stroke-width: 1.8;
      }
      .chosen {
        fill: var(--bench-sunk);
      }
      .usual-life {
        opacity: 0.5;
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this, 'rows');

  @property({ attribute: false }) lives: readonly Life[] = [];
  @property({ attribute: false }) proposals: readonly Proposal[] = [];
  @property({ type: Number }) today = 0;
  /** Addresses of the reeds' small pictures, by their ids, as far as they are drawn. */
  @property({ attribute: false }) bodies: ReadonlyMap<string, string> = new Map();
  @property() decimal: NumberFormat['decimal'] = 'point';

  override render() {
    const { lives, today } = this;
    if (this.size.width === 0) return nothing;
    const ahead = this.proposals.filter(({ day }) => day >= today && day <= today + MOST_AHEAD_DAYS);
    const frame = this.frameWith(ahead);
    const rows = lives.map((life, k) => this.stops(frame, life, frame.rowAt(k)));
    const heads = ahead.map((one) => this.engagementStop(frame, one));
    this.walk.groups = [heads, ...rows.map((row) => row.map(({ stop }) => stop))];
    const card = this.walk.shown;
    return html`<bench-picture caption=${CAPTION} file-name="lives of reeds">
      <svg
        part="picture"
        role="group"
        aria-label=${`${CAPTION}. Arrow keys go along a life and from reed to reed.`}
        width=${frame.width}
        height=${frame.height}
        viewBox="0 0 ${frame.width} ${frame.height}"
      >
        ${textures} ${this.renderGround(frame)}
        ${ahead.map((one, k) => this.renderEngagement(frame, one, heads[k]!, ahead))}
        ${lives.map((life, k) => this.renderLife(frame, life, frame.rowAt(k), rows[k]!, ahead))}
        ${lives.length === 0 ? usualLife(frame, this.today) : nothing}
        ${card ? markCard(card, frame) : nothing}
      </svg>
      ${markKey([
        [
          svg`<rect class="concert" x="-4" y="-8" width="8" height="16"></rect>`,
          'concert, as thick as its hours',
        ],
        [svg`<rect class="play" x="-4" y="-5" width="8" height="10"></rect>`, 'other playing'],
        [mark('read', 0, 0), 'pass, read'],
        [mark('knife', 0, 0), 'knife, not read'],
        [mark('trial', 0, 0), 'trial'],
        [mark('clip', 0, 0), 'clip'],
        ahead.length > 0 && [mark('unsure', 0, 0), 'not sure, or second choice'],
      ])}
      ${livesTable(lives, this.proposals, this)}
    </bench-picture>`;
  }

  private frameWith(ahead: readonly Proposal[]): LivesFrame {
    const { lives, today } = this;
    const first = min(lives, ({ tied = today, begun = today }) => Math.min(tied, begun));
    return livesFrame(this.size.width, lives.length, today, { first, last: ahead.at(-1)?.day });
  }

  private hours(value: number): string {
    return quantityText('hours', value, this);
  }

  private stops({ x, roomy }: LivesFrame, life: Life, y: number): Shown[] {
    const [from] = x.domain() as [number, number];
    const name = (day: number) => `${life.reed.label}, ${shortDay(dayOf(day))}`;
    const plays = life.plays.map(({ day, hours, isConcert, words }, k): Shown & { readonly day: number } => ({
      day,
      hours,
      drawn: isConcert ? 'concert' : 'play',
      stop: this.stop(life, `play-${life.reed.id}-${k}`, [name(day), words], x(day), y),
    }));
    const seen = new Map<number, number>();
    const marked = life.marks.map((one, k): Shown & { readonly day: number } => {
      const before = seen.get(one.day) ?? 0;
      if (one.kind !== 'clip') seen.set(one.day, before + 1);
      const up = (roomy ? 16 : 7) + 11 * Math.min(before, 1);
      const short = one.words.length > 56 ? `${one.words.slice(0, 54)}…` : one.words;
      return {
        day: one.day,
        drawn: one.kind,
        stop: this.stop(
          life,
          `mark-${life.reed.id}-${k}`,
          [name(one.day), short],
          x(one.day),
          one.kind === 'clip' ? y : y - up,
        ),
      };
    });
    return [...plays, ...marked].filter(({ day }) => day >= from).sort((a, b) => a.day - b.day);
  }

  private stop({ reed }: Life, id: string, lines: readonly string[], x: number, y: number): Stop {
    const href = hrefOf({ at: 'history', reedId: reed.id });
    return { id, lines, words: `${lines.join(', ')}. Opens its history.`, href, x, y };
  }

  private engagementStop({ x, top }: LivesFrame, { engagement, day, first, words }: Proposal): Stop {
    const lines = [
      `${shortDay(engagement.at)}, ${engagement.title}`,
      ...(first ? [`proposed: ${first.row.reed.label}`] : []),
      words.length > 70 ? `${words.slice(0, 68)}…` : words,
    ];
    return { id: `for-${engagement.id}`, lines, words: lines.join('. '), x: x(day), y: top - 30 };
  }

  private renderGround(frame: LivesFrame) {
    const { x, top, foot } = frame;
    return svg`${weeksOf(x).map((day) => svg`<path class="hair" d=${`M${x(day)} ${top}V${foot}`}></path>`)}
      ${dayRuler(x, foot)}
      <path class="line thin" d=${`M${x(this.today)} ${top - 16}V${foot}`}></path>
      <text class="strong" x=${x(this.today)} y=${top - 26} text-anchor="middle">today</text>`;
  }

  private renderEngagement(
    { x, top, foot, rowAt }: LivesFrame,
    { engagement, day, first, second, isSure }: Proposal,
    stop: Stop,
    all: readonly Proposal[],
  ) {
    const shown = this.walk.shown?.id === stop.id;
    const rowOf = (id: string | undefined) => this.lives.findIndex(({ reed }) => reed.id === id);
    const [own, other] = [rowOf(first?.row.reed.id), rowOf(second?.row.reed.id)];
    const apart = (other: number) => Math.abs(x(other) - x(day));
    const crowded = apart(this.today) < 40 || all.some((one) => one.day !== day && apart(one.day) < 62);
    const head = svg`<text class="strong" x=${x(day)} y=${top - 34} text-anchor="middle">${crowded ? String(Number(dayOf(day).slice(8))) : shortDay(engagement.at)}</text>
      <path class="engagement" d=${`M${x(day)} ${top - 20}V${foot}`}></path>`;
    return svg`${shown ? svg`<rect class="chosen" x=${x(day) - 9} y=${top - 20} width="18" height=${foot - top + 20}></rect>` : nothing}
      ${this.walk.wrap(stop, head)}
      ${
        shown
          ? this.lives.map(({ row }, k) =>
              row && row.hours > 0
                ? svg`<text class="haloed" x=${x(day) - 12} y=${rowAt(k) - 12} text-anchor="end">${this.hours(row.hours + EVENING_HOURS)}</text>`
                : nothing,
            )
          : nothing
      }
      ${other >= 0 && !isSure ? mark('unsure', x(day), rowAt(other)) : nothing}
      ${own >= 0 ? svg`<path class="line ahead" d=${`M${x(this.today)} ${rowAt(own)}H${x(day) - 6}`}></path>${mark(isSure ? 'read' : 'unsure', x(day), rowAt(own))}` : nothing}`;
  }

  private renderLife(
    frame: LivesFrame,
    { reed, row, tied, begun, plays }: Life,
    y: number,
    shown: readonly Shown[],
    ahead: readonly Proposal[],
  ) {
    const { x, narrow, roomy, names, bodyHeight } = frame;
    const [from] = x.domain() as [number, number];
    const end = x(this.today);
    const body = this.bodies.get(reed.id);
    const at = (day: number) => Math.max(x(from), Math.min(end, x(day)));
    const start = Math.min(tied ?? begun ?? this.today, begun ?? this.today);
    const hours =
      row && row.hours > 0 ? this.hours(row.hours) : reed.state === 'blank' ? 'blank' : 'not played';
    const last = plays.at(-1)?.day;
    const rest = last === undefined ? undefined : this.today - last;
    const isAhead = ahead.some(({ first }) => first?.row.reed.id === reed.id);
    return svg`<g class="row">
      ${body && bodyHeight > 0 ? svg`<image href=${body} height=${bodyHeight} x="0" y=${y - bodyHeight / 2}></image>` : nothing}
      <a href=${hrefOf({ at: 'history', reedId: reed.id })} tabindex="-1"><text class="reed" x=${names[0]} y=${narrow ? y - 8 : y}>${unbroken(reed.label)}</text></a>
      ${narrow ? svg`<text x="0" y=${y + 9}>${hours}</text>` : svg`<text class="strong" x=${names[1]} y=${roomy ? y - 8 : y} text-anchor="end">${hours}</text>`}
      ${roomy && !narrow ? svg`<text x=${names[1]} y=${y + 9} text-anchor="end">${this.stateWords(reed.state, row?.bestFor?.words, tied)}</text>` : nothing}
      <path class="blank" d=${`M${at(start)} ${y}H${at(begun ?? this.today)}`}></path>
      ${tied !== undefined && tied >= from ? svg`<path class="bracket" d=${`M${x(tied)} ${y - 6}v12`}></path>` : nothing}
      ${begun === undefined ? nothing : svg`<path class="life" d=${`M${at(begun)} ${y}H${end}`}></path>`}
      ${shown.map(({ stop, drawn, hours: long }) => this.walk.wrap(stop, this.renderOne(frame, stop, drawn, long, y)))}
      ${
        roomy && !narrow && rest !== undefined && rest > 1 && last! >= from && !isAhead
          ? svg`<path class="bracket" d=${`M${x(last!) + 6} ${y + 7}v6H${end}v-6`}></path>
            <text x=${(x(last!) + end) / 2} y=${y + 21} text-anchor="middle" class="haloed">rests ${days(rest)}</text>`
          : nothing
      }
    </g>`;
  }

  private stateWords(state: string, best: string | undefined, tied: number | undefined): string {
    if (state === 'blank') return tied === undefined ? '' : `tied ${shortDay(dayOf(tied))}`;
    return state === 'scraping' ? 'on the bench' : (best ?? state);
  }

  private renderOne({ x, roomy }: LivesFrame, stop: Stop, drawn: Shown['drawn'], hours = 0, line = 0) {
    if (drawn !== 'play' && drawn !== 'concert')
      return svg`${roomy && drawn !== 'clip' ? svg`<path class="whisker" d=${`M${stop.x} ${stop.y}V${line}`}></path>` : nothing}${mark(drawn, stop.x, stop.y)}`;
    const width = Math.min(16, Math.max(5, 0.7 * (x(1) - x(0))));
    const height = 4 + (Math.min(HIGHEST_HOURS, hours) / HIGHEST_HOURS) * (roomy ? 22 : 16);
    return svg`<rect class=${drawn} x=${stop.x - width / 2} y=${stop.y - height / 2} width=${width} height=${height}></rect>`;
  }
}
