import { css, html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { dayNumber, dayOf } from '../../shared/moment.ts';
import { airReadingSchema, type AirReading, type Engagement } from '../../shared/room.ts';
import { airFiguresWithDoubt } from '../../src/climate/air-doubt.ts';
import { airLog, todayAndBefore, type AirEntry } from '../../src/climate/air-log.ts';
import { daysToFollow, waterInCane, type CaneWater } from '../../src/climate/cane-water.ts';
import { atHome, roomDays } from '../../src/climate/room-days.ts';
import { airChange } from '../../src/climate/travel.ts';
import { withTheAir, type HeardWithAir, type WithTheAir } from '../../src/climate/with-the-air.ts';
import { dayMarks } from '../../src/reed/day-marks.ts';
import { doubtDigits, numberText, signedText, withUnit } from '../../src/words/format.ts';
import { shortDay, weekday } from '../../src/words/day-words.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { marks } from '../marks/marks.styles.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { airBeside, airOf } from './air-beside.ts';
import './air-figures.ts';
import { weatherWords } from './air-words.ts';
import './room-chart.ts';
import type { GoingTo } from './room-frame.ts';
import './travel-panel.ts';

const FIELDS: readonly Field<Extract<keyof AirReading, string>>[] = [
  { name: 'humidityPct', words: 'Humidity, %', kind: 'number' },
  { name: 'temperatureC', words: 'Temperature, °C', kind: 'number' },
  { name: 'elevationM', words: 'Height, m', kind: 'number' },
  { name: 'place', words: 'Where', kind: 'text' },
];
/** Days that the picture goes back. */
const WEEKS = 5;
/** An engagement further ahead is not drawn. */
const MOST_AHEAD_DAYS = 21;

const HEARD_WORDS: Readonly<Record<HeardWithAir, readonly [name: string, unit: string, digits: number]>> = {
  openingMm: ['the opening', 'mm', 2],
  resistance: ['resistance', 'steps of five', 1],
  response: ['response', 'steps of five', 1],
  crowCents: ['the crow', 'cents', 0],
};

/** The room: will today's air change my reeds, and has the cane followed yet? */
@customElement('bench-room')
export class RoomScreen extends BenchElement {
  static override styles = [
    controls,
    tables,
    forms,
    fields,
    pages,
    marks,
    css`
      .page {
        gap: var(--bench-space-4);
      }
      .two {
        grid-template-columns: minmax(0, 1fr) 356px;
        gap: var(--bench-space-4) 28px;
      }
      .fields {
        grid-template-columns: repeat(3, 1fr);
        gap: var(--bench-space-2) var(--bench-space-3);
      }
      .fields label:last-child {
        grid-column: 1 / -1;
      }
      form {
        gap: var(--bench-space-2);
      }
      h1 {
        max-width: none;
      }
      td {
        white-space: nowrap;
      }
      small {
        color: var(--bench-ink3);
      }
      @media (max-width: 1000px) {
        .two {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const store = this.library.store!;
    const typed = readFields(new FormData(form), FIELDS, airReadingSchema);
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(form, 'problem' in typed ? typed.name : undefined);
    if ('problem' in typed) return;
    const { temperatureC, humidityPct, elevationM, place } = typed.values;
    if (temperatureC === undefined && humidityPct === undefined) {
      this.problem = 'Write the humidity, the temperature or both.';
      markField(form, 'humidityPct');
      return;
    }
    const reading = {
      kind: 'air' as const,
      at: store.ledger.now(),
      ...(temperatureC !== undefined && { temperatureC }),
      ...(humidityPct !== undefined && { humidityPct }),
      ...(elevationM !== undefined && { elevationM }),
      ...(place !== undefined && { place }),
    };
    if (!(await store.keep([reading], 'the air of the room'))) return;
    // Height and place stay for the next time.
    for (const name of ['temperatureC', 'humidityPct']) {
      const field = form.elements.namedItem(name);
      if (field instanceof HTMLInputElement) field.value = '';
    }
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { air, trial: trials, pass: passes, reed: reeds, engagement } = store.snapshot.live;
    const { home, elsewhere } = atHome(airLog({ air, trials, passes }));
    const today = dayNumber(store.ledger.now());
    const entries = [...home, ...elsewhere].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
    const room = roomDays(entries, today - 7 * WEEKS, today);
    const water = waterInCane(roomDays(home, dayNumber(home[0]?.at ?? dayOf(today)), today).days);
    const last = todayAndBefore(home);
    const going = nextAway(engagement, today);
    return html`<div class="page">
      <h1>${this.sentence(last, water.at(-1), today)}</h1>
      <div class="two">
        <section class="plate">
          <h2>The room’s air day by day <small>humidity, one point a day</small></h2>
          <bench-room-chart
            .room=${room}
            .water=${water.filter(({ day }) => day >= today - 7 * WEEKS)}
            .happened=${dayMarks({ reeds, passes, trials }, this.library.writing)}
            .goingTo=${going && goingTo(going)}
            .today=${today}
            .decimal=${this.library.choices.decimal}
          ></bench-room-chart>
        </section>
        <section>
          ${this.renderForm(home)} ${airBeside(last, water, going, this.library.writing)}
          ${this.renderWithTheAir(withTheAir(trials, water))}
          <details>
            <summary>A place you travel to</summary>
            <bench-travel .here=${last.today?.air}></bench-travel>
          </details>
          ${this.renderFigures(last.today)}
        </section>
      </div>
    </div>`;
  }

  private renderForm(home: readonly AirEntry[]) {
    return html`<h2>The air now</h2>
      <form @submit=${this.handleKeep}>
        <div class="fields">${renderFields(FIELDS, this.usual(home), this.library.writing)}</div>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button class="main">Keep</button> <span class="quiet">Humidity alone is enough.</span>
        </div>
      </form>`;
  }

  /** Height and place seldom change: the last ones are offered. */
  private usual(entries: readonly AirEntry[]) {
    const last = entries.findLast(({ from }) => from === 'room');
    return last ? { place: last.place, ...(!last.heightAssumed && { elevationM: last.air.elevationM }) } : {};
  }

  private sentence(
    { today, before }: ReturnType<typeof todayAndBefore>,
    water: CaneWater | undefined,
    day: number,
  ) {
    if (!today) return html`No reading of the room. <em>Type one.</em>`;
    const { writing } = this.library;
    const { temperatureC, humidityPct } = today.air;
    const warm = today.temperatureAssumed ? '' : ` and ${numberText(temperatureC, 1, writing)}\u00a0°C`;
    const now = `${numberText(humidityPct, 0, writing)}\u00a0%${warm}`;
    const readOn = dayNumber(today.at);
    if (readOn < day)
      return html`The room was last read on ${shortDay(today.at)}: ${now}. <em>Type today’s air.</em>`;
    if (!before) return html`${now}. <em>Nothing was written the day before to hold it against.</em>`;
    const days = water && water.day === readOn ? daysToFollow(water) : 0;
    const until = days > 0 ? weekday(dayOf(readOn + days)) : undefined;
    const [say, caution] = weatherWords(airChange(before.air, today.air), until);
    return html`${now}. ${say} <em>${caution}</em>`;
  }

  /** What changed with the reeds when the air changed: only what can be told. */
  private renderWithTheAir(told: readonly WithTheAir[]) {
    if (told.length === 0)
      return html`<p class="quiet">
        What the air does to your reeds cannot be told yet. It takes trials of the same reed on dry and damp
        days, with no knife between.
      </p>`;
    const { writing } = this.library;
    return told.map(({ heard, perPercent, doubt, pairs }) => {
      const [name, unit, usual] = HEARD_WORDS[heard];
      const digits = doubtDigits(doubt, usual);
      return html`<p class="aside">
        For 1 % more water in the cane, ${name} goes
        ${withUnit(signedText(perPercent, digits, writing), unit)} ±${numberText(doubt, digits, writing)}
        <small>(${pairs} pairs of trials)</small>.
      </p>`;
    });
  }

  private renderFigures(today: AirEntry | undefined) {
    if (!today) return nothing;
    return html`<details>
      <summary>What follows from the air</summary>
      <bench-air-figures .here=${today.air} .decimal=${this.library.choices.decimal}></bench-air-figures>
      ${today.heightAssumed ? html`<p class="quiet">No height is written: sea level is assumed.</p>` : nothing}
    </details>`;
  }
}

/** The next engagement whose humidity is written down. */
function nextAway(engagements: readonly Engagement[], today: number): Engagement | undefined {
  return engagements
    .filter(({ at, humidityPct }) => {
      const ahead = dayNumber(at) - today;
      return humidityPct !== undefined && ahead >= 0 && ahead <= MOST_AHEAD_DAYS;
    })
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))[0];
}

function goingTo(engagement: Engagement): GoingTo {
  const { title, at, humidityPct } = engagement;
  const settles = airFiguresWithDoubt(airOf(engagement)).woodMoisturePct ?? { value: 0, u: 0 };
  return { day: dayNumber(at), title, humidityPct: humidityPct ?? 0, settles };
}
