import { BLADES } from '../../../shared/blade.ts';
import { figureFrom, type TableColumn, type FigureSource, type FigureTable } from '../../figures/figure.ts';
import type { Contrast } from '../../figures/zone-figures.ts';
import { sentence } from '../../words/figure-words.ts';
import type { Quantity, UnitWords } from '../../words/format.ts';
import { NEAR_MM, type SeenZone } from '../standing-readings.ts';
import type { ReedFigures, TableName } from './record.ts';

/** A column of a table: one function makes its figure of each row. */
export interface ColumnOf<Row> extends TableColumn {
  /** Last part of the figures' ids. */
  readonly key: string;
  readonly quantity: Quantity;
  readonly figure: (row: Row) => FigureSource;
}

/**
 * The figures of a zone. A new one is a function and a row here: it then stands wherever zones are shown, on the sheet and
 * in the report.
 */
export const ZONE_COLUMNS: ColumnOf<SeenZone>[] = [
  { key: 'mean', head: 'Mean', quantity: 'thickness', figure: ({ mean }) => mean ?? 'not read' },
  ...BLADES.map((blade) => ({
    key: blade,
    head: blade,
    quantity: 'thickness' as const,
    brief: true as const,
    figure: ({ blades }: SeenZone) => blades[blade] ?? `${blade} is not read`,
  })),
  {
    key: 'to-floor',
    head: 'To floor',
    quantity: 'reading',
    figure: ({ toFloorMm }) => toFloorMm ?? 'no floor here',
  },
];

const CONTRAST_COLUMNS = (['blade', 'hand', 'side'] as const).map(
  (contrast: Contrast): ColumnOf<SeenZone> => ({
    key: contrast,
    head: contrast,
    quantity: 'difference',
    figure: ({ balance }) => balance?.[contrast] ?? 'only one blade is read',
  }),
);

const EXTENT_COLUMNS: readonly ColumnOf<SeenZone>[] = [
  {
    key: 'thinnest',
    head: 'Thinnest reading',
    quantity: 'reading',
    figure: ({ thinnestMm }) => thinnestMm ?? 'not read',
  },
  { key: 'volume', head: 'mm³', quantity: 'volume', figure: ({ volume }) => volume ?? 'not read' },
];

/** Rows and columns of a table as figures. */
export function tableOf<Row extends Pick<FigureTable['rows'][number], 'name' | 'title'>>(
  of: string,
  kind: string,
  layout: Pick<FigureTable, 'title' | 'caption' | 'head'>,
  rows: readonly Row[],
  columns: readonly ColumnOf<Row>[],
): FigureTable {
  return {
    ...layout,
    columns,
    rows: rows.map((row) => ({
      name: row.name,
      title: row.title,
      figures: columns.map(({ key, quantity, figure }) =>
        figureFrom({ of, id: [kind, row.name, key].join('.'), quantity }, figure(row)),
      ),
    })),
  };
}

const inUnit = ({ name }: UnitWords) => sentence(name);

/** The tables of a reed after a pass, in the order in which they are looked at. */
export const TABLES: Readonly<Record<TableName, (figures: ReedFigures) => FigureTable>> = {
  zones: (figures: ReedFigures): FigureTable => {
    const table = tableOf(
      figures.of,
      'zone',
      {
        title: 'Zones',
        head: 'Zone',
        caption: (unit) =>
          `${inUnit(unit)}. ± is 95 %. “To floor” is how far the nearest reading of the zone is above its floor.`,
      },
      figures.zones,
      ZONE_COLUMNS,
    );
    const rows = table.rows.map((row, i) => {
      const { toFloorMm = Infinity } = figures.zones[i]!;
      return { ...row, marked: toFloorMm <= NEAR_MM };
    });
    return { ...table, rows };
  },
  balance: (figures: ReedFigures): FigureTable =>
    tableOf(
      figures.of,
      'zone',
      {
        title: 'Even',
        head: 'Zone',
        caption: (unit) =>
          `${inUnit(unit)}: A less B, right less left, side 1 less side 2. ± is 95 %; in brackets: not measurable.`,
      },
      figures.zones.filter(({ balance }) => balance),
      CONTRAST_COLUMNS,
    ),
  crossings: ({ of, crossings }: ReedFigures): FigureTable => ({
    title: 'Where the centre passes a thickness',
    head: ({ caption }) => caption,
    caption: () => 'Where the centre passes a thickness, mm from the tip. ± is 95 %.',
    columns: [{ head: 'at' }],
    rows: crossings.map(({ thicknessMm, at }) => {
      const name = thicknessMm.toFixed(2);
      return {
        name,
        title: figureFrom({ of, id: `crossed.${name}`, quantity: 'reading' }, thicknessMm),
        figures: [
          figureFrom(
            { of, id: `crossing.${name}`, quantity: 'distance' },
            at ?? 'the centre does not pass it',
          ),
        ],
      };
    }),
  }),
  ratios: ({ of, ratios }: ReedFigures): FigureTable =>
    tableOf(
      of,
      'ratio',
      {
        title: 'Ratios of zones',
        head: 'Ratio',
        caption: () =>
          'Means of zones over each other: they survive another gouge, wetness and gauge better than thickness does. ± is 95 %.',
      },
      ratios.map((ratio) => ({ ...ratio, name: `${ratio.upper}.${ratio.lower}` })),
      [{ key: 'both', head: 'here', quantity: 'ratio', figure: ({ ratio }) => ratio }],
    ),
  extent: (figures: ReedFigures): FigureTable =>
    tableOf(
      figures.of,
      'zone',
      {
        title: 'Thinnest reading and volume',
        head: 'Zone',
        caption: ({ name }) =>
          `The thinnest reading of each zone, ${name}; what cane there is on both blades, mm³. ± is 95 %.`,
      },
      figures.zones,
      EXTENT_COLUMNS,
    ),
  believable: (figures: ReedFigures): FigureTable => {
    const byZone = figures.believable;
    return tableOf(
      figures.of,
      'believable',
      {
        title: 'Smallest change to believe',
        head: 'Zone',
        caption: (unit) =>
          `${inUnit(unit)}: between two single readings at a usual place of the zone. It is a 95 % limit itself.`,
      },
      figures.placed,
      BLADES.filter((blade) => byZone[blade]).map((blade) => ({
        key: blade,
        head: blade,
        quantity: 'thickness',
        figure: ({ name }) => byZone[blade]?.get(name) ?? `${blade} is not read`,
      })),
    );
  },
};
