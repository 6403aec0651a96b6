import { expect, it } from 'vitest';
import { lessonsOfAssembled } from '../../../src/answers/from-library.ts';
import { assembleReed } from '../../../src/reed/assemble.ts';
import { reportReed } from '../../../src/report/reed-report.ts';
import { reportText } from '../../../src/report/report-text.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import { inventedMaker } from '../../generator/makers.ts';
import { libraryPass, libraryReed } from '../library-of-maker.ts';

const maker = inventedMaker('steady', 41);
const few = ({ fromTipMm, across }: FitReading) =>
  [1, 4, 5, 8, 12, 16].includes(fromTipMm) && (Math.round(across * 2.5) + fromTipMm) % 2 === 0;

it('says from how many readings and reeds the figures are of a reed read in few places, and not without them', () => {
  const others = Array.from({ length: 8 }, (_, k) => {
    const id = `reed ${k}`;
    return assembleReed({
      reed: libraryReed(id),
      passes: [libraryPass(id, maker.reed(k).passes[0]!.readings)],
    });
  });
  const readings = maker.reed(50).passes[0]!.readings.filter(few);
  const documents = { reed: libraryReed('few'), passes: [libraryPass('few', readings)] };
  const told = reportReed(documents, { lessons: lessonsOfAssembled(others) });
  const alone = reportReed(documents);
  const words = `From ${readings.length} readings here and 8 of your reeds.`;
  expect(told.fromLibrary).toMatchObject({ reeds: 8, readings: readings.length, words });
  expect(reportText([told])).toContain(words);
  expect(alone.fromLibrary).toBeUndefined();
  expect(reportText([alone])).not.toContain('of your reeds');
  const doubtMm = ({ passes: [pass] }: typeof told) => pass!.blades.A!.zones['blend']!.uMm;
  expect(doubtMm(told)).toBeLessThan(doubtMm(alone));
});
