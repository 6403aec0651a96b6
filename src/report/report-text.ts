import { BLADES } from '../../shared/blade.ts';
import { rowTitle, type FigureTable } from '../figures/figure.ts';
import { sayRemovalSpan } from '../answers/span-words.ts';
import {
  COVERAGE,
  differenceFigure,
  numberText,
  readingText,
  thicknessFigure,
  UNIT_WORDS,
  writtenFigure,
} from '../words/format.ts';
import { WRITING, type FaultReport, type PassReport, type ReedReport } from './reed-report.ts';

type Row = readonly string[];
type Section = readonly [heading: Row, ...rows: Row[]];

const NONE = '\u2013';

/** A report as text: a section for each reed and pass, figures in hundredths with their 95 % doubt. */
export function reportText(reeds: readonly ReedReport[]): string {
  const about = `Thicknesses in hundredths of a millimetre; \u00b1 is 95 % (${COVERAGE.toFixed(2)} standard uncertainties). A difference in brackets is inside its doubt.`;
  return [about, ...reeds.flatMap(reedText)].join('\n\n') + '\n';
}

function reedText({ label, assumed, fromLibrary, passes }: ReedReport): string[] {
  const assumption = assumed.length > 0 ? [`Assumed: ${assumed.join('; ')}.`] : [];
  return [
    [label, '='.repeat(label.length), ...assumption, ...(fromLibrary ? [fromLibrary.words] : [])].join('\n'),
    ...passes.map((pass) => passText(pass)),
  ];
}

function passText(pass: PassReport): string {
  const blades = BLADES.flatMap((blade) => pass.blades[blade] ?? []);
  const noise = BLADES.flatMap((blade) => {
    const report = pass.blades[blade];
    return report ? [`${blade} ${numberText(report.noiseMm * 100, 2, WRITING)}`] : [];
  });
  const sections = [...pass.tables.map(tableSection), pointSection(pass)];
  return [
    `Pass ${pass.index}, overall length ${pass.overallLengthMm.toFixed(2)} mm`,
    `One reading scatters by (one standard deviation): ${noise.join(', ')}, from ${blades[0]?.noiseFrom ?? 'nothing'}`,
    ...sections.filter((section) => section.length > 1).map((section) => `\n${table(section)}`),
    ...spanLines(pass),
    ...faultLines(pass),
  ].join('\n');
}

/** A table of the record in plain text: every figure with its doubt. */
function tableSection({ title, head, columns, rows }: FigureTable): Section {
  const heads = columns.flatMap((column) => [column.head, '']);
  const isThickness = typeof head === 'function';
  return [
    [isThickness ? `${title}, ${head(UNIT_WORDS[WRITING.unit])}` : title, ...heads],
    ...rows.map(({ title: about, figures }) => [
      rowTitle({ title: about }, WRITING),
      ...figures.flatMap((figure) => cells(writtenFigure(figure, WRITING))),
    ]),
  ];
}

function pointSection({ blades, removed }: PassReport): Section {
  const rows = BLADES.flatMap((blade) =>
    (blades[blade]?.at ?? []).map(({ fromTipMm, across, thicknessMm, uMm, beyond }, i) => {
      const at = removed?.[blade]?.at[i];
      const off = at?.notRead ? undefined : at;
      return [
        `${blade} ${fromTipMm} mm, ${across}${beyond ? ', beyond the outermost readings' : ''}`,
        ...cells(thicknessFigure({ valueMm: thicknessMm, uMm }, WRITING)),
        ...cells(off && differenceFigure({ valueMm: off.removedMm, uMm: off.uMm }, WRITING)),
      ];
    }),
  );
  return [['At', 'thickness', '', 'taken off', ''], ...rows];
}

function spanLines({ removed, index }: PassReport): string[] {
  const lines = BLADES.flatMap((blade) => {
    const off = removed?.[blade];
    return (off && sayRemovalSpan(blade, off, index)) ?? [];
  });
  return lines.length > 0 ? ['', ...lines] : [];
}

/** Faults that leave the figures of their pass as they are: a slip is set aside, an increase is one of them. */
const LEAVES_FIGURES: readonly FaultReport['kind'][] = ['digits', 'increase'];
const BOTH_ANSWERS =
  'Until this is settled, ± is wide: figures cover the readings as they are written, and put right.';

function faultLines({ faults, readAgain, setAside }: PassReport): string[] {
  const lines = [
    ...faults.map(faultText),
    ...(faults.some(({ kind }) => !LEAVES_FIGURES.includes(kind)) ? [BOTH_ANSWERS] : []),
    ...readAgain.map(({ words }) => words),
    ...setAside.map(
      ({ blade, fromTipMm, across, thicknessMm }) =>
        `Set aside until it is read again: ${blade} ${fromTipMm} mm, ${across}, ${readingText(thicknessMm, WRITING)}`,
    ),
  ];
  return lines.length > 0 ? ['', ...lines] : [];
}

function faultText({ kind, blade, grade, orElse, words }: FaultReport): string {
  const where = blade === 'both' ? 'both blades' : `blade ${blade}`;
  const rivals = orElse ? ` (or else: ${orElse.join(', ')})` : '';
  return `Fault ${grade}: ${kind}, ${where}${rivals}. ${words}`;
}

function cells(figure: ReturnType<typeof writtenFigure> | undefined): [string, string] {
  if (typeof figure === 'string') return [figure, ''];
  return figure && 'value' in figure ? [figure.value, figure.doubt] : [NONE, ''];
}

/** Rows under their heading: names at the left, numbers at the right, columns as wide as their widest cell. */
function table(rows: Section): string {
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows
    .map((row) =>
      row.map((cell, column) => (column === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[column]!))),
    )
    .map((row) => `  ${row.join('  ')}`.trimEnd())
    .join('\n');
}
