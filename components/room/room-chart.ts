import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { INPUT_U } from '../../src/climate/air-doubt.ts';
import { waterAhead, type CaneWater } from '../../src/climate/cane-water.ts';
import type { RoomDays } from '../../src/climate/room-days.ts';
import type { DayMark } from '../../src/reed/day-marks.ts';
import { COVERAGE, joined, numberText, type NumberFormat } from '../../src/words/format.ts';
import { dayRuler, levels } from '../marks/axes.ts';
import { bandPath, linePath } from '../marks/lines.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk } from '../marks/mark-walk.ts';
import { mark, textures, whisker } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { isNarrow, roomFrame, type GoingTo, type RoomFrame } from './room-frame.ts';
import { dayStop, MOST_STACKED, STACKED, stacksOf, type Placed } from './room-stacks.ts';
import { airLines, humidityFigure, roomTable, waterText } from './room-table.ts';

const NARROW_DAYS = 21;
const LABEL_APART_PX = 66;
/** Half the width of a reed's label, and a mark's beside it. */
const BESIDE_LABEL_PX = 40;
const AHEAD_DAYS = 5;
/** Half the width of a figure with its doubt. */
const HALF_FIGURE_PX = 32;
/** What is told of a place that was not read there, one standard uncertainty, per cent. Our own number. */
const EXPECTED_U = 5;

const CAPTION =
  'The air of the room by day, humidity in per cent, and the water in the cane, per cent of its dry mass, worked out from it; ± is 95 %';

/** What stands there before the first reading, in lines. */
const EMPTY_WORDS = {
  wide: ['One point a day is enough. After ten days', 'the usual band is drawn.'],
  narrow: ['One point a day', 'is enough. After', 'ten days the usual', 'band is drawn.'],
} as const;

/** As wide as what is said beside the line of the water's name. */
const WATER_WORDS_PX = 640;

/** The air of the room by day, the water in the cane under it, and what happened to the reeds on the air of its day. */
@customElement('bench-room-chart')
export class RoomChart extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      .away {
        stroke: var(--bench-ink);
        stroke-width: 3.4;
      }
      .day {
        fill: var(--bench-ink);
      }
      .cane-now {
        fill: light-dark(var(--bench-thickness-24), var(--bench-thickness-12));
        stroke: var(--bench-plate);
        stroke-width: 1.5;
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  @property({ attribute: false }) room: RoomDays | undefined;
  @property({ attribute: false }) water: readonly CaneWater[] = [];
  @property({ attribute: false }) happened: readonly DayMark[] = [];
  @property({ attribute: false }) goingTo: GoingTo | undefined;
  @property({ type: Number }) today = 0;
  @property() decimal: NumberFormat['decimal'] = 'point';

  override render() {
    if (!this.room || this.size.width === 0) return nothing;
    const going = this.goingTo;
    const ahead = Math.max(this.today + AHEAD_DAYS + 2, (going?.day ?? 0) + 2);
    const since = isNarrow(this.size.width) ? this.today - NARROW_DAYS : -Infinity;
    const room = { ...this.room, days: this.room.days.filter(({ day }) => day >= since) };
    const water = this.water.filter(({ day }) => day >= since);
    const frame = roomFrame(this.size.width, room, [...water, ...this.ahead], going, ahead);
    const shown = this.happened.filter(({ day }) => day >= room.days[0]!.day && day <= this.today);
    const linesOf = (day: number) => airLines(this.room!, this.water, day, this);
    const stacks = stacksOf(frame, room, shown, linesOf);
    this.walk.groups = room.days.map(({ day, entry }) => [
      ...(entry ? [dayStop(frame, day, entry.air.humidityPct, linesOf(day))] : []),
      ...(stacks.get(day) ?? []).map(({ stop }) => stop),
    ]);
    const card = this.walk.shown;
    return html`<bench-picture caption=${CAPTION} file-name="the air of the room">
      <svg
        part="picture"
        role="group"
        aria-label=${`${CAPTION}. Arrow keys go from day to day.`}
        width=${frame.width}
        height=${frame.height}
        viewBox="0 0 ${frame.width} ${frame.height}"
      >
        ${textures} ${this.renderGround(frame, room)} ${this.renderAir(frame, room)}
        ${this.renderWater(frame, water)} ${going ? this.renderGoing(frame, going) : nothing}
        ${this.renderMarks(frame, stacks)}
        ${card ? svg`<path class="line ahead" d=${`M${card.x} ${frame.air.range()[1]!}V${frame.water.range()[0]!}`}></path>${markCard(card, frame)}` : nothing}
      </svg>
      ${this.renderKey()} ${roomTable(this.room, this.water, this.happened, this)}
    </bench-picture>`;
  }

  private get ahead(): CaneWater[] {
    const last = this.water.at(-1);
    return last?.day === this.today ? waterAhead(last, AHEAD_DAYS) : [];
  }

  private pct(value: number): string {
    return numberText(value, 0, this);
  }

  private renderGround(frame: RoomFrame, { usual }: RoomDays) {
    const { x, air, water, between } = frame;
    const span = x.range() as [number, number];
    const foot = water.range()[0]!;
    return svg`${
      usual
        ? svg`<rect class="usual" x=${span[0]} width=${x(this.today + 0.5) - span[0]} y=${air(usual.high)}
            height=${air(usual.low) - air(usual.high)}></rect>`
        : nothing
    }
      ${levels(air, span, frame.airTicks, (value) => `${this.pct(value)} %`)}
      ${levels(water, span, frame.waterTicks, (value) => `${this.pct(value)} %`)} ${dayRuler(x, foot)}
      <text class="strong" x=${span[0] - 40} y=${between}>Water in the cane</text>
      ${span[1] - span[0] < WATER_WORDS_PX ? nothing : svg`<text x=${span[0] + 78} y=${between}>worked out for cane that lies open, wood standing in for it; it follows the air in one to three days</text>`}
      <path class="line thin" d=${`M${x(this.today)} ${air.range()[1]! - 8}V${foot}`}></path>
      <text class="strong" x=${x(this.today)} y=${air.range()[1]! - 18} text-anchor="middle">today</text>`;
  }

  private renderAir(frame: RoomFrame, room: RoomDays) {
    const { x, air, narrow } = frame;
    const places = room.days.map(({ day, entry }) => ({ at: day, value: entry?.air.humidityPct }));
    const last = room.days.at(-1);
    const now = last?.entry?.air.humidityPct;
    const half = COVERAGE * INPUT_U.humidityPct;
    return svg`<path class="line" d=${linePath(places, x, air)}></path>
      ${alone(places).map(({ at, value }) => mark('sure', x(at), air(value)))}
      ${room.away.map(
        ({
          from,
          to,
          place,
          humidityPct,
        }) => svg`<path class="away" d=${`M${x(from) - 4} ${air(humidityPct)}H${x(to) + 4}`}></path>
          <text class="haloed" x=${x(to) + 8} y=${air(humidityPct)}>${place}, ${this.pct(humidityPct)} %</text>`,
      )}
      ${
        now === undefined
          ? svg`<rect class="doubtful" x=${x(this.today) - 8} width="16" y=${air.range()[1]!} height=${air.range()[0]! - air.range()[1]!}></rect>
              <text class="haloed" x=${x(this.today) + (narrow ? -12 : 12)} y=${air.range()[0]! - 20} text-anchor=${narrow ? 'end' : 'start'}>not read yet</text>`
          : svg`${whisker(x(this.today), air(now + half), air(now - half))}${mark('sure', x(this.today), air(now))}
              ${
                narrow
                  ? svg`<text class="strong haloed" x=${x(this.today) + 8} y=${air(now) + 1}>${joined(humidityFigure(now, this))}</text>`
                  : svg`<text class="large haloed" x=${x(this.today) + 12} y=${air(now)}>${humidityFigure(now, this).value}</text>
              <text class="haloed" x=${x(this.today) + 66} y=${air(now) + 2}>${humidityFigure(now, this).doubt}</text>`
              }`
      }
      ${
        room.days.some(({ entry }) => entry)
          ? nothing
          : EMPTY_WORDS[narrow ? 'narrow' : 'wide'].map(
              (line, k) =>
                svg`<text class="say haloed" x=${x.range()[0]! + 10} y=${air.range()[0]! - 124 + 24 * k}>${line}</text>`,
            )
      }`;
  }

  private renderWater({ x, water, narrow }: RoomFrame, held: readonly CaneWater[]) {
    const last = held.at(-1);
    if (!last)
      return svg`<text class="say" x=${x.range()[0]! + 10} y=${(water.range()[0]! + water.range()[1]!) / 2}
        >${narrow || x.range()[1]! - x.range()[0]! < WATER_WORDS_PX ? 'From three days on.' : 'Worked out from three days on; before that it would only be a guess.'}</text>`;
    const broken = withGaps(held);
    const ahead = last.day === this.today ? [last, ...this.ahead] : [];
    const reach = (one: CaneWater) => ({
      at: one.day,
      low: one.percent - COVERAGE * one.u,
      high: one.percent + COVERAGE * one.u,
    });
    const drawn = (list: readonly (CaneWater | undefined)[]) =>
      list.map((one) => (one ? reach(one) : { at: 0 }));
    const line = (list: readonly (CaneWater | undefined)[]) =>
      linePath(
        list.map((one) => ({ at: one?.day ?? 0, value: one?.percent })),
        x,
        water,
      );
    return svg`<path class="doubtful" d=${bandPath(drawn(broken), x, water)}></path>
      <path class="doubtful" d=${bandPath(drawn(ahead), x, water)}></path>
      <path class="line cane" d=${line(broken)}></path><path class="line cane ahead" d=${line(ahead)}></path>
      <circle class="cane-now" cx=${x(last.day)} cy=${water(last.percent)} r="5"></circle>
      <text class="strong haloed" x=${x(last.day) + 10} y=${water(last.percent) - 14}>${waterText(last, this)}</text>`;
  }

  private renderGoing({ x, air, water }: RoomFrame, { day, humidityPct, settles }: GoingTo) {
    const half = COVERAGE * EXPECTED_U;
    const [where, reach] = [x(day), COVERAGE * settles.u];
    const middle = Math.min(where, x.range()[1]! - HALF_FIGURE_PX);
    return svg`<g>${whisker(where, air(humidityPct + half), air(humidityPct - half))}${mark('unsure', where, air(humidityPct))}
      <text class="strong haloed" x=${middle} y=${air(humidityPct - half) + 14} text-anchor="middle">${joined(humidityFigure(humidityPct, this, EXPECTED_U))}</text>
      ${whisker(where, water(settles.value + reach), water(settles.value - reach))}${mark('unsure', where, water(settles.value))}</g>`;
  }

  private renderMarks({ x, narrow }: RoomFrame, stacks: ReadonlyMap<number, readonly Placed[]>) {
    let labelled = -Infinity;
    const { size } = STACKED[narrow ? 'narrow' : 'wide'];
    const least = x.range()[0]! + BESIDE_LABEL_PX;
    const all = [...stacks.values()].flatMap((stack) => stack.map(({ stop }) => stop));
    const days = this.walk.groups.flatMap((column) => column.filter(({ href }) => href === undefined));
    return svg`${days.map((stop) => this.walk.wrap(stop, svg`<circle class="day" cx=${stop.x} cy=${stop.y} r="2.2"></circle>`))}
      ${[...stacks.values()].map((stack) => {
        const top = stack[Math.min(stack.length, MOST_STACKED + 1) - 1]!.stop;
        const hasRoom = !narrow && top.x - labelled > LABEL_APART_PX;
        if (hasRoom) labelled = top.x;
        const over = all.filter((one) => Math.abs(one.x - top.x) < BESIDE_LABEL_PX).map(({ y }) => y);
        const labels = new Set(stack.map(({ stop }) => stop.lines[0]!.split(',')[0]!));
        const [first] = labels;
        return svg`${stack.map(({ stop, kind }, k) =>
          k < MOST_STACKED
            ? this.walk.wrap(stop, mark(kind, stop.x, stop.y, size))
            : this.walk.wrap(
                stop,
                k === MOST_STACKED
                  ? svg`<text x=${stop.x} y=${stop.y} text-anchor="middle">+${stack.length - MOST_STACKED}</text>`
                  : svg``,
              ),
        )}
          ${hasRoom ? svg`<text class="reed haloed" aria-hidden="true" x=${Math.max(least, top.x)} y=${Math.min(...over) - 18} text-anchor="middle">${first}${labels.size > 1 ? ` +${labels.size - 1}` : ''}</text>` : nothing}`;
      })}`;
  }

  private renderKey() {
    const kinds = new Set(this.happened.map(({ kind }) => kind));
    const usual = this.room?.usual;
    return markKey([
      kinds.has('read') && [mark('read', 0, 0), 'pass, read'],
      kinds.has('knife') && [mark('knife', 0, 0), 'knife, not read'],
      kinds.has('trial') && [mark('trial', 0, 0), 'trial'],
      kinds.has('clip') && [mark('clip', 0, 0), 'clip'],
      (this.room?.away.length ?? 0) > 0 && [svg`<path class="away" d="M-12 0H12"></path>`, 'away'],
      usual !== undefined && [
        svg`<rect class="usual" x="-12" y="-7" width="24" height="14"></rect>`,
        `usual here, ${this.pct(usual.low)} to ${this.pct(usual.high)} %: eight days of ten, from ${usual.days} days`,
      ],
      this.water.length > 0 && [
        svg`${textures}<rect class="doubtful" x="-12" y="-7" width="24" height="14"></rect>`,
        'doubt, 95 %',
      ],
      this.ahead.length > 0 && [
        svg`<path class="line cane ahead" d="M-12 0H12"></path>`,
        'if the air stays so',
      ],
      this.goingTo !== undefined && [mark('unsure', 0, 0), `where you go: ${this.goingTo.title}`],
    ]);
  }
}

/** Days with a value that have none beside them: a line cannot show them. */
function alone(places: readonly { readonly at: number; readonly value: number | undefined }[]) {
  return places.flatMap(({ at, value }, k) =>
    value !== undefined && places[k - 1]?.value === undefined && places[k + 1]?.value === undefined
      ? [{ at, value }]
      : [],
  );
}

/** A gap where more than three days are missing. */
function withGaps(water: readonly CaneWater[]): (CaneWater | undefined)[] {
  return water.flatMap((one, k) => {
    const before = water[k - 1];
    return before && one.day - before.day > 3 ? [undefined, one] : [one];
  });
}
