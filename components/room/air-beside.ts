import { html, nothing, type TemplateResult } from 'lit';
import { dayNumber } from '../../shared/moment.ts';
import type { Engagement } from '../../shared/room.ts';
import { airFiguresWithDoubt, INPUT_U } from '../../src/climate/air-doubt.ts';
import type { AirEntry } from '../../src/climate/air-log.ts';
import type { CaneWater } from '../../src/climate/cane-water.ts';
import type { Air } from '../../src/climate/travel.ts';
import { airFigure, NO_FIGURE, numberText, type NumberFormat } from '../../src/words/format.ts';
import { shortDay } from '../../src/words/day-words.ts';
import '../figures-table/copy-table.ts';

/** What is written of the air of an engagement; a heated room at sea level where nothing is. */
export const airOf = ({ temperatureC = 20, humidityPct = 50, elevationM = 0 }: Engagement): Air => ({
  temperatureC,
  humidityPct,
  elevationM,
});

/** What is expected of a place that was not read, one standard uncertainty. Our own numbers. */
export const EXPECTED_U = { humidityPct: 5, temperatureC: 1 };

const CAPTION = html`± is 95 % <bench-copy></bench-copy>`;

/** The air of one time and place, what is known of it. */
interface Known {
  readonly air: Partial<Air>;
  readonly u: typeof EXPECTED_U;
  readonly water?: CaneWater | undefined;
  readonly settles?: { readonly value: number; readonly u: number } | undefined;
}

function ofEntry(entry: AirEntry, water: readonly CaneWater[]): Known {
  const { humidityPct, temperatureC, elevationM } = entry.air;
  return {
    air: {
      humidityPct,
      ...(!entry.temperatureAssumed && { temperatureC }),
      ...(!entry.heightAssumed && { elevationM }),
    },
    u: INPUT_U,
    water: water.find(({ day }) => day === dayNumber(entry.at)),
    settles: airFiguresWithDoubt(entry.air).woodMoisturePct,
  };
}

function ofEngagement(engagement: Engagement): Known {
  const { temperatureC, humidityPct, elevationM } = engagement;
  return {
    air: {
      ...(humidityPct !== undefined && { humidityPct }),
      ...(temperatureC !== undefined && { temperatureC }),
      ...(elevationM !== undefined && { elevationM }),
    },
    u: EXPECTED_U,
    settles: airFiguresWithDoubt(airOf(engagement)).woodMoisturePct,
  };
}

/** Today beside the day before and the place that is gone to, each figure with its doubt. */
export function airBeside(
  { today, before }: { readonly today?: AirEntry; readonly before?: AirEntry },
  water: readonly CaneWater[],
  going: Engagement | undefined,
  writing: Pick<NumberFormat, 'decimal'>,
) {
  if (!today) return nothing;
  const known = [before && ofEntry(before, water), ofEntry(today, water), going && ofEngagement(going)];
  const columns = known.slice(0, going ? 3 : 2);
  const figure = (quantity: Parameters<typeof airFigure>[0], value: number | undefined, u: number) => {
    if (value === undefined) return NO_FIGURE;
    const text = airFigure(quantity, { value, u }, writing);
    return html`${text.value} <small>${text.doubt}</small>`;
  };
  const row = (name: string, cell: (one: Known) => TemplateResult | string) =>
    html`<tr>
      <th scope="row">${name}</th>
      ${columns.map((one) => html`<td>${one ? cell(one) : NO_FIGURE}</td>`)}
    </tr>`;
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Today, and where you go">
    <table>
      <caption>
        ${CAPTION}
      </caption>
      <thead>
        <tr>
          <th scope="col"><span class="said">Of the air</span></th>
          ${['Before', 'Today', going && shortDay(going.at)].map((head) => (head ? html`<th scope="col">${head}</th>` : nothing))}
        </tr>
      </thead>
      <tbody>
        ${row('Humidity', ({ air, u }) => figure('humidity', air.humidityPct, u.humidityPct))}
        ${row('Temperature', ({ air, u }) => figure('temperature', air.temperatureC, u.temperatureC))}
        ${row('Height, m', ({ air }) => (air.elevationM === undefined ? NO_FIGURE : numberText(air.elevationM, 0, writing)))}
        ${row('Cane holds', ({ water: held }) => figure('water', held?.percent, held?.u ?? 0))}
        ${row('It settles at', ({ settles }) => figure('water', settles?.value, settles?.u ?? 0))}
      </tbody>
    </table>
  </div>`;
}
