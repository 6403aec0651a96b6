import { html, type TemplateResult } from 'lit';
import { dayOf } from '../../shared/moment.ts';
import type { Life, Play } from '../../src/rotation/lives.ts';
import type { Proposal } from '../../src/rotation/proposals.ts';
import { shortDay } from '../../src/words/day-words.ts';
import { NO_FIGURE, quantityText, withUnit, type NumberFormat } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import { sameAsTable } from '../marks/twin.ts';

export const days = (count: number) => withUnit(String(count), count === 1 ? 'day' : 'days');

/** The lives as a table: hours, rest, what happened, what is ahead. */
export function livesTable(
  lives: readonly Life[],
  proposals: readonly Proposal[],
  writing: Pick<NumberFormat, 'decimal'>,
): TemplateResult {
  const rows = lives.map(({ reed, row, plays, marks: own }) => {
    const ahead = proposals.filter(({ first }) => first?.row.reed.id === reed.id);
    return [
      html`<a href=${hrefOf({ at: 'history', reedId: reed.id })}>${unbroken(reed.label)}</a>`,
      reed.slot === undefined ? NO_FIGURE : String(reed.slot),
      reed.state,
      row ? quantityText('hours', row.hours, writing) : NO_FIGURE,
      row?.daysSince === undefined ? NO_FIGURE : days(row.daysSince),
      row?.bestFor?.words ?? NO_FIGURE,
      [...own, ...plays]
        .sort((a, b) => b.day - a.day)
        .map((one: Play | Life['marks'][number]) => `${shortDay(dayOf(one.day))} ${one.words}`)
        .join('; '),
      ahead.map(({ engagement }) => `${shortDay(engagement.at)} ${engagement.title}`).join('; '),
    ];
  });
  return sameAsTable({
    caption: 'The living reeds: hours played, days of rest, what happened, what is ahead',
    heads: [
      'Reed',
      'Slot',
      'State',
      'Played',
      'Rested',
      'Best for',
      'What happened, the latest first',
      'Ahead',
    ],
    rows,
  });
}
