import { BLADES, type Blade } from '../../../shared/blade.ts';
import { figureFrom, type Figure, type FigureTable } from '../../figures/figure.ts';
import type { ZoneRemoval } from '../../figures/removed.ts';
import { numberText, type NumberFormat } from '../../words/format.ts';
import { placeOnBlade } from '../answer-words.ts';
import type { RemovalRow, RemovedByZone } from '../taken-off.ts';
import type { ReedFigures } from './record.ts';
import { questionOpen, withQuestion } from './question-open.ts';
import { tableOf, type ColumnOf } from './tables.ts';

const notRead = (blade: Blade) => `${blade} was not read both before and in this pass`;

const bladeColumns = (
  quantity: Figure['quantity'],
  figure: (removal: ZoneRemoval) => ReturnType<ColumnOf<RemovalRow>['figure']>,
): ColumnOf<RemovalRow>[] =>
  BLADES.map((blade) => ({
    key: blade,
    head: blade,
    quantity,
    figure: ({ blades }) => (blades[blade] ? figure(blades[blade]) : notRead(blade)),
  }));

/** The questions of both passes. */
const openOf = ({ own }: ReedFigures, before: number) => questionOpen(own.benched, [before, own.pass]);

/** Whose the figures are: `M-142, pass 3 since pass 2`. */
function spanOf({ of, own }: ReedFigures, { pair }: Pick<RemovedByZone, 'pair'>): string {
  return `${of} since pass ${own.benched.assembled.passes[pair.before]!.index}`;
}

/** What came off each zone since an earlier pass, by its place among the passes. */
export function takenByZone(figures: ReedFigures, before: number): FigureTable {
  return withQuestion(byZone(figures, before), openOf(figures, before));
}

function byZone(figures: ReedFigures, before: number): FigureTable {
  const removed = figures.removed(before);
  return tableOf(
    spanOf(figures, removed),
    'taken',
    {
      title: 'Taken off',
      head: 'Zone',
      caption: ({ caption }) =>
        `Taken off, ${caption}, in the zones of the later pass; passes are placed from the cork end. In brackets: not measurable here. ± is 95 %.`,
    },
    removed.rows,
    bladeColumns('difference', ({ mean }) => mean),
  );
}

/** The same with the zone's largest place and its blade. */
export function takenTable(figures: ReedFigures, before: number): FigureTable {
  const { mostOf } = figures.taken(before);
  const table = byZone(figures, before);
  const of = spanOf(figures, figures.removed(before));
  const withMost: FigureTable = {
    ...table,
    caption: (unit) => `${table.caption(unit)} “Most” is the zone’s largest place and its blade.`,
    columns: [...table.columns, { head: 'Most' }],
    rows: table.rows.map((row) => {
      const most = mostOf.get(row.name);
      const name = { of, id: `taken.${row.name}.most`, quantity: 'difference' } as const;
      return {
        ...row,
        figures: [
          ...row.figures,
          most
            ? { ...figureFrom(name, most), note: most.blade }
            : figureFrom(name, 'nothing measurable here'),
        ],
      };
    }),
  };
  return withQuestion(withMost, openOf(figures, before));
}

export function takenVolumes(figures: ReedFigures, before: number): FigureTable {
  const removed = figures.removed(before);
  const table = tableOf(
    spanOf(figures, removed),
    'taken-volume',
    {
      title: 'Volume by zone, mm³',
      head: 'Zone',
      caption: () => 'Taken off, mm³. In brackets: not measurable here. ± is 95 %.',
    },
    removed.rows,
    bladeColumns('volume taken', ({ volumeMm3, uMm3 }) => ({ value: volumeMm3, u: uMm3 })),
  );
  return withQuestion(table, openOf(figures, before));
}

/** The stretches that measurably lost cane, the largest loss first. */
export function takenPatches(figures: ReedFigures, before: number): FigureTable {
  const { patches, pair } = figures.taken(before);
  const of = spanOf(figures, { pair });
  const table = tableOf(
    of,
    'patch',
    {
      title: 'Patch by patch',
      head: 'Patch, mm from the tip',
      caption: ({ caption }) =>
        `Stretches that measurably lost cane, ${caption}; the largest loss first. A patch goes on across rows that were not read. ± is 95 %.`,
    },
    patches.map((patch) => {
      const { blade, most, fromMm, toMm } = patch;
      const where = placeOnBlade(figures.placed, blade, most.fromTipMm, most.across).replace(/,$/, '');
      return {
        ...patch,
        name: `${blade}-${most.fromTipMm.toFixed(1)}-${most.across.toFixed(1)}`,
        title: (writing: NumberFormat) =>
          `${where}, ${numberText(fromMm, 1, writing)} to ${numberText(toMm, 1, writing)}`,
      };
    }),
    [
      { key: 'mean', head: 'Mean', quantity: 'difference', figure: ({ mean }) => mean },
      { key: 'most', head: 'Most', quantity: 'difference', figure: ({ most }) => most },
      {
        key: 'volume',
        head: 'mm³',
        quantity: 'volume taken',
        figure: ({ mean, areaMm2 }) => ({ value: mean.valueMm * areaMm2, u: mean.uMm * areaMm2 }),
      },
    ],
  );
  return withQuestion(table, openOf(figures, before));
}
