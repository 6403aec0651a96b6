import { evenness } from '../answers/even.ts';
import { figuresOf, zoneMean } from '../answers/record/reed-figures.ts';
import { figureFrom, type Figure, type FigureSource, type FigureTable } from '../figures/figure.ts';
import type { Ratio } from '../figures/ratio.ts';
import { CONTRASTS, type Contrast } from '../figures/zone-figures.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { isMeasurable, sentence } from '../words/figure-words.ts';
import type { InWay } from './compare-in-way.ts';
import type { Compared, ComparedZone } from './compare.ts';
import { CONTRAST_WORDS } from './signs.ts';

/** A reed beside a target as figures: its own are those of its record, and so are those of a reed that it is set beside. */
export interface BesideTables {
  readonly zones: FigureTable;
  readonly crossings: FigureTable;
  readonly ratios: FigureTable;
  readonly balance: FigureTable;
}

export function besideTables(compared: Compared & Partial<Pick<InWay, 'way'>>): BesideTables {
  return {
    zones: zonesTable(compared),
    crossings: crossingsTable(compared),
    ratios: ratiosTable(compared),
    balance: balanceTable(compared),
  };
}

const IN_DOUBT = '± is 95 %; in brackets: inside its doubt.';
const columnsOf = ({ own, target }: Compared) => [
  { head: own.own.benched.reed.label },
  { head: target.name },
];

/** Whose the figures of the target are: of the reed at its pass where it is one, as it is shown alone. */
const otherOf = ({ example, target, own }: Compared): string =>
  example?.of ?? `${target.name}, as it is beside ${own.of}`;

function zonesTable(compared: Compared & Partial<Pick<InWay, 'way'>>): FigureTable {
  const isShare = compared.way === 'share';
  return {
    title: 'Zones',
    head: 'Zone',
    caption: ({ name }) =>
      `${isShare ? 'Per cent of the cane before scraping' : sentence(name)}. ${IN_DOUBT}`,
    columns: [
      ...columnsOf(compared).map((column) => ({ ...column, brief: true as const })),
      { head: 'Difference' },
    ],
    rows: compared.zones.map((zone) => ({
      name: zone.name,
      title: zoneTitle(zone),
      figures: isShare ? shares(compared, zone) : thicknesses(compared, zone),
    })),
  };
}

function zoneTitle({ title, inPart, spreadMm, difference }: ComparedZone): string {
  const isWithin = spreadMm > 0 && Math.abs(difference.valueMm) <= spreadMm;
  return `${title}${inPart ? ', in part' : ''}${isWithin ? ', within your own variety' : ''}`;
}

function thicknesses(compared: Compared & Partial<Pick<InWay, 'way'>>, zone: ComparedZone): Figure[] {
  const { own, example, target } = compared;
  const { name, inPart } = zone;
  const key = `zone.${name}.${inPart ? `part-as-${target.name}` : 'mean'}`;
  const figure = (of: string, source: Estimate) => figureFrom({ of, id: key, quantity: 'thickness' }, source);
  return [
    (!inPart && zoneMean(own, name)) || figure(own.of, zone.own),
    (!inPart && example && zoneMean(example, name)) ||
      figure(compared.way === 'shape' ? `${target.name} in shape` : otherOf(compared), zone.other),
    figureFrom(
      {
        of: `${own.of} less ${otherOf(compared)}`,
        id: `${key}.${compared.way ?? 'plain'}`,
        quantity: 'difference',
      },
      zone.difference,
    ),
  ];
}

function shares(
  compared: Compared,
  { name, own, other, difference, originalMm = 1 }: ComparedZone,
): Figure[] {
  const figure = (of: string, quantity: Figure['quantity'], { valueMm, uMm }: Estimate) =>
    figureFrom(
      { of, id: `zone.${name}.share`, quantity },
      { value: valueMm / originalMm, u: uMm / originalMm },
    );
  const [mine, theirs] = [compared.own.of, otherOf(compared)];
  return [
    figure(mine, 'share', own),
    figure(`${theirs}, in the cane of ${mine}`, 'share', other),
    figure(`${mine} less ${theirs}`, 'share difference', difference),
  ];
}

/** The same figures of the reed and of what it is set beside, row by row. */
function rowsBeside(
  { own, example, target }: Compared,
  quantity: Figure['quantity'],
  rows: readonly {
    readonly name: string;
    readonly title: FigureTable['rows'][number]['title'];
    readonly own: FigureSource;
    readonly other: FigureSource;
  }[],
): FigureTable['rows'] {
  const of = [own.of, example?.of ?? `${target.name}, as it is beside ${own.of}`] as const;
  return rows.map(({ name, title, own: mine, other }) => ({
    name,
    title,
    figures: [
      figureFrom({ of: of[0], id: name, quantity }, mine),
      figureFrom({ of: of[1], id: name, quantity }, other),
    ],
  }));
}

function crossingsTable(compared: Compared): FigureTable {
  const { own, crossings } = compared;
  const alone = own.table('crossings');
  return {
    ...alone,
    columns: columnsOf(compared),
    rows: rowsBeside(
      compared,
      'distance',
      alone.rows.map(({ name, title }, i) => ({
        name: `crossing.${name}`,
        title,
        own: crossings[i]!.own ?? 'not passed',
        other: crossings[i]!.other ?? 'not passed',
      })),
    ),
  };
}

function ratiosTable(compared: Compared): FigureTable {
  const { own, example, zones } = compared;
  const meanOf = (name: string) => zones.find((zone) => zone.name === name)?.other;
  const theirs = (upper: string, lower: string) => {
    const known = example?.ratios.find((one) => one.upper === upper && one.lower === lower)?.ratio;
    const [above, below] = [meanOf(upper), meanOf(lower)];
    return known ?? (above && below && independentRatio(above, below));
  };
  return {
    title: 'Ratios of zones',
    head: 'Ratio',
    caption: () => 'Means of zones over each other. ± is 95 %.',
    columns: columnsOf(compared),
    rows: rowsBeside(
      compared,
      'ratio',
      own.ratios.map(({ upper, lower, title, ratio }) => ({
        name: `ratio.${upper}.${lower}.both`,
        title,
        own: ratio,
        other: theirs(upper, lower) ?? 'it has no such zones',
      })),
    ),
  };
}

/** Source: law of propagation of uncertainty without correlation, GUM 5.1.2. */
export function independentRatio(upper: Estimate, lower: Estimate): Ratio {
  const value = upper.valueMm / lower.valueMm;
  const relative = Math.hypot(upper.uMm / upper.valueMm, lower.uMm / lower.valueMm);
  return { value, u: Math.abs(value) * relative };
}

/** Where a reed, or what it is set beside, is measurably uneven; of several reeds their mean. */
function balanceTable(compared: Compared): FigureTable {
  const { own, target } = compared;
  const reeds = ['a reed', 'several reeds'].includes(target.from) ? target.parts.map(({ reed }) => reed) : [];
  const theirs = reeds.map((reed) => evenness(figuresOf(reed)));
  const rows = evenness(own).flatMap(({ name, title, balance }) =>
    (Object.keys(CONTRASTS) as Contrast[]).flatMap((contrast) => {
      const others = theirs.flatMap(
        (zones) => zones.find((zone) => zone.name === name)?.balance[contrast] ?? [],
      );
      const other = others.length > 0 ? meanOf(others) : undefined;
      const mine = balance[contrast];
      if (!isMeasurable(mine) && !(other && isMeasurable(other))) return [];
      return [
        {
          name: `zone.${name}.${contrast}`,
          title: `${title}, ${CONTRAST_WORDS[contrast]}`,
          own: mine,
          other: other ?? 'it has no such zone',
        },
      ];
    }),
  );
  return {
    title: 'Where either is uneven',
    head: 'Zone',
    caption: ({ caption }) => `${sentence(caption)}. ${IN_DOUBT}`,
    columns: columnsOf(compared),
    rows: rowsBeside(compared, 'difference', rows),
  };
}

const meanOf = (all: readonly Estimate[]): Estimate => ({
  valueMm: all.reduce((sum, { valueMm }) => sum + valueMm, 0) / all.length,
  uMm: Math.hypot(...all.map(({ uMm }) => uMm)) / all.length,
});
