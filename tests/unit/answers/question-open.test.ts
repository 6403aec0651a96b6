import { describe, expect, it } from 'vitest';
import { settled } from '../../../src/answers/fitted-reed.ts';
import { reedFigures } from '../../../src/answers/record/reed-figures.ts';
import { takenByZone, takenTable, takenVolumes } from '../../../src/answers/record/taken-tables.ts';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../../../src/faults/judged-passes.ts';
import { figuresById, reportReed } from '../../../src/report/reed-report.ts';
import { UNIT_WORDS } from '../../../src/words/format.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const ASKED = 'were A and B written for each other?';
const SAID = `± covers both answers while it is asked: ${ASKED}`;
const asked = scenarioReed('m-142-swapped');
const found = findFaults(judgedPasses(asked.assembled, asked.passes), faultOptions(asked.assembled));
const inDoubt = found.findIndex(({ faults }) => faults.some(({ kind }) => kind === 'swapped'));
const benched = settled(asked, found);
const at = (pass: number) => reedFigures({ benched, pass });

describe('a question about a pass that is not settled', () => {
  it('stands once over each table of that pass, and with each figure that has a doubt', () => {
    const figures = at(inDoubt);
    for (const table of [figures.table('zones'), takenTable(figures, 0), takenVolumes(figures, 0)]) {
      expect(table.caption(UNIT_WORDS.hundredths).split(SAID)).toHaveLength(2);
      for (const { u, open } of table.rows.flatMap((row) => row.figures))
        expect(open).toBe(u === undefined ? undefined : ASKED);
    }
  });

  it('is not said of other passes, unless they are set beside that one', () => {
    const other = inDoubt - 1;
    expect(at(other).table('zones').caption(UNIT_WORDS.mm)).not.toContain('while it is asked');
    const since = takenByZone(at(inDoubt), other);
    expect(since.caption(UNIT_WORDS.mm)).toContain(SAID);
  });

  it('widens what it stands beside: means of each blade, while those of both are the same either way', () => {
    const rows = (benched: typeof asked) => reedFigures({ benched, pass: inDoubt }).table('zones').rows;
    const [plain, wide] = [rows(asked), rows(benched)];
    const wider = (column: number) =>
      wide.map(({ figures }, k) => figures[column]!.u! / plain[k]!.figures[column]!.u!);
    // Both blades, A, B.
    expect(Math.max(...wider(1))).toBeGreaterThan(1.2);
    expect(Math.max(...wider(2))).toBeGreaterThan(1.2);
    for (const ratio of wider(0)) expect(ratio).toBeCloseTo(1, 1);
    expect(plain[0]!.figures[0]!.open).toBeUndefined();
  });

  it('stands in the report, by the figure’s id', () => {
    const { passes } = reportReed({ reed: asked.reed, passes: asked.passes });
    expect(figuresById(passes[inDoubt]!)['zone.heart.mean']).toMatchObject({ open: ASKED });
    expect(figuresById(passes[0]!)['zone.heart.mean']).not.toHaveProperty('open');
  });
});
