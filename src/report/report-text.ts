import { BLADES } from '../../shared/blade.ts';
import { sayRemovalSpan } from '../answers/span-words.ts';
import {
  COVERAGE,
  differenceFigure,
  numberText,
  ratioFigure,
  readingText,
  thicknessFigure,
  type FigureText,
} from '../words/format.ts';
import { WRITING, type FaultReport, type PassReport, type ReedReport } from './reed-report.ts';

type Row = readonly string[];
type Section = readonly [heading: Row, ...rows: Row[]];

const CONTRASTS = ['blade', 'hand', 'side'] as const;
const NONE = '\u2013';

/** A report as text: a section for each reed and pass, figures in hundredths with their 95 % doubt. */
export function reportText(reeds: readonly ReedReport[]): string {
  const about = `Thicknesses in hundredths of a millimetre; \u00b1 is 95 % (${COVERAGE.toFixed(2)} standard uncertainties). A difference in brackets is inside its doubt.`;
  return [about, ...reeds.flatMap(reedText)].join('\n\n') + '\n';
}

function reedText({ label, assumed, passes }: ReedReport): string[] {
  const assumption = assumed.length > 0 ? [`Assumed: ${assumed.join('; ')}.`] : [];
  return [[label, '='.repeat(label.length), ...assumption].join('\n'), ...passes.map(passText)];
}

function passText(pass: PassReport, i: number, passes: readonly PassReport[]): string {
  const before = passes[i - 1];
  const blades = BLADES.flatMap((blade) => pass.blades[blade] ?? []);
  const noise = BLADES.flatMap((blade) => {
    const report = pass.blades[blade];
    return report ? [`${blade} ${numberText(report.noiseMm * 100, 2, WRITING)}`] : [];
  });
  const sections = [
    meanSection(pass),
    believableSection(pass),
    balanceSection(pass),
    ratioSection(pass),
    removedSection(pass, before),
    pointSection(pass),
  ];
  return [
    `Pass ${pass.index}, overall length ${pass.overallLengthMm.toFixed(2)} mm`,
    `One reading scatters by (one standard deviation): ${noise.join(', ')}, from ${blades[0]?.noiseFrom ?? 'nothing'}`,
    ...sections.filter((section) => section.length > 1).map((section) => `\n${table(section)}`),
    ...spanLines(pass),
    ...faultLines(pass),
  ].join('\n');
}

function meanSection({ blades }: PassReport): Section {
  const names = new Set(BLADES.flatMap((blade) => Object.keys(blades[blade]?.zones ?? {})));
  const rows = [...names].map((name) => [
    name,
    ...BLADES.flatMap((blade) => {
      const mean = blades[blade]?.zones[name];
      return cells(mean && thicknessFigure({ valueMm: mean.meanMm, uMm: mean.uMm }, WRITING));
    }),
  ]);
  return [['Mean', 'A', '', 'B', ''], ...rows];
}

function believableSection({ blades }: PassReport): Section {
  const names = new Set(BLADES.flatMap((blade) => Object.keys(blades[blade]?.believableMm ?? {})));
  const rows = [...names].map((name) => [
    name,
    ...BLADES.map((blade) => {
      const changeMm = blades[blade]?.believableMm[name];
      return changeMm === undefined ? NONE : thicknessFigure({ valueMm: changeMm, uMm: 0 }, WRITING).value;
    }),
  ]);
  return [['Smallest change to believe, two single readings', 'A', 'B'], ...rows];
}

function balanceSection({ balance }: PassReport): Section {
  const rows = Object.entries(balance).map(([name, figures]) => [
    name,
    ...CONTRASTS.flatMap((contrast) => cells(differenceFigure(figures[contrast], WRITING))),
  ]);
  return [['Balance', ...CONTRASTS.flatMap((contrast) => [contrast, ''])], ...rows];
}

function ratioSection({ ratios }: PassReport): Section {
  const rows = ratios.map(({ upper, lower, ratio }) => [
    `${upper} to ${lower}`,
    ...cells(ratioFigure(ratio, WRITING)),
  ]);
  return [['Ratio of means', 'both', ''], ...rows];
}

function removedSection({ removed }: PassReport, before: PassReport | undefined): Section {
  const names = new Set(BLADES.flatMap((blade) => Object.keys(removed?.[blade]?.zones ?? {})));
  const rows = [...names].map((name) => [
    name,
    ...BLADES.flatMap((blade) => {
      const mean = removed?.[blade]?.notRead ? undefined : removed?.[blade]?.zones[name];
      return cells(mean && differenceFigure({ valueMm: mean.removedMm, uMm: mean.uMm }, WRITING));
    }),
  ]);
  return [[`Taken off since pass ${before?.index ?? NONE}`, 'A', '', 'B', ''], ...rows];
}

function pointSection({ blades, removed }: PassReport): Section {
  const rows = BLADES.flatMap((blade) =>
    (blades[blade]?.at ?? []).map(({ fromTipMm, across, thicknessMm, uMm, beyond }, i) => {
      const off = removed?.[blade]?.notRead ? undefined : removed?.[blade]?.at[i];
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

function faultLines({ faults, readAgain, setAside }: PassReport): string[] {
  const lines = [
    ...faults.map(faultText),
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

function cells(figure: FigureText | undefined): [string, string] {
  return figure ? [figure.value, figure.doubt] : [NONE, ''];
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
