import { readFile } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { FormatError, IllPosedError, InputError } from '../../shared/errors.ts';
import { readCsv } from '../exchange/csv/read-csv.ts';
import type { ReedDraft } from '../exchange/csv/drafts.ts';
import { reedsOf } from '../exchange/csv/reeds-of.ts';
import { readPoints } from '../exchange/csv/read-points.ts';
import { isReadInFew, lessonsOfAssembled, type Lessons } from '../answers/from-library.ts';
import { assembleReed, type ReedDocuments } from '../reed/assemble.ts';
import { USUAL_OVERALL_MM } from '../reed/overall-lengths.ts';
import { parseArguments, USAGE, type StraightSides } from './arguments.ts';
import { figuresById, reportReed, type ReedReport } from './reed-report.ts';
import { reportText } from './report-text.ts';

/** Where a run writes to. */
export interface Streams {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

const STANDARD: Streams = {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
};
/** The style whose zones are used: files of readings name none. */
const STYLE = 'long-scrape';

/**
 * Reports every reed and pass in the files that the arguments name.
 *
 * @returns The exit code: 0, or 2 after a sentence on what cannot be understood; nothing is reported then.
 */
export async function main(args: readonly string[], { out, err }: Streams = STANDARD): Promise<number> {
  try {
    out(await answer(args));
    return 0;
  } catch (error) {
    if (!(error instanceof FormatError || error instanceof InputError || error instanceof IllPosedError))
      throw error;
    err(`${error.message}\n`);
    return 2;
  }
}

async function answer(args: readonly string[]): Promise<string> {
  const { files, json, help, alone, at, rectangles, width } = parseArguments(args);
  if (help) return USAGE;
  const drafts = await readReeds(files);
  const points = at === undefined ? [] : await readPoints(at, await bytesOf(at));
  const documents = drafts.map((draft) => documentsOf(draft, width));
  const lessons = alone ? () => [] : lessonsBeside(documents);
  const reeds = documents.map((one): ReedReport =>
    reportReed(one, { at: points, rectangles, lessons: lessons(one) }),
  );
  return json
    ? `${JSON.stringify({ uMm: 'standard uncertainty, k = 1', reeds: reeds.map(asJson) }, undefined, 2)}\n`
    : reportText(reeds);
}

/** What the other reeds of the files teach one that was read in few places. */
function lessonsBeside(documents: readonly ReedDocuments[]) {
  const all = new Map(documents.map((one) => [one, assembleReed(one)]));
  return (asked: ReedDocuments): Lessons => {
    const own = all.get(asked)!;
    return isReadInFew(own) ? lessonsOfAssembled([...all.values()].filter((one) => one !== own)) : [];
  };
}

/** A reed with the figures of its passes by their ids, in the place of their tables. */
const asJson = ({ passes, ...reed }: ReedReport) => ({
  ...reed,
  passes: passes.map(({ tables, ...pass }) => ({ ...pass, figures: figuresById({ tables }) })),
});

/** @throws FormatError with every problem and every question that the files leave open. */
async function readReeds(paths: readonly string[]): Promise<readonly ReedDraft[]> {
  const files = await Promise.all(
    paths.map(async (path) => ({
      name: path,
      bytes: await bytesOf(path),
      answers: { label: basename(path, extname(path)) },
    })),
  );
  return reedsOf(await readCsv(files));
}

async function bytesOf(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new InputError(`${path}: must be a file that can be read`, { cause: error });
  }
}

/** @throws InputError for a reed without a reading that a surface could go through. */
function documentsOf({ label, passes }: ReedDraft, width: StraightSides | undefined): ReedDocuments {
  const isRead = passes.some(({ readings }) =>
    readings.some(({ role, thicknessMm }) => role === 'station' && thicknessMm),
  );
  if (!isRead)
    throw new InputError(
      `${label}: must hold readings of stations, got controls or blanks alone; add the file with them`,
    );
  const firstOverallMm = passes[0]?.overallLengthMm ?? USUAL_OVERALL_MM;
  return {
    reed: { label, styleId: STYLE },
    passes: passes.map((pass) => ({ ...pass, readings: [...pass.readings], remedies: [] })),
    ...(width && { halfWidthMm: halfWidth(width, firstOverallMm) }),
  };
}

function halfWidth({ atTipMm, taper, from }: StraightSides, firstOverallMm: number) {
  return (fromTipMm: number, fromCorkMm: number): number =>
    (atTipMm - taper * (from === 'own-tip' ? fromTipMm : firstOverallMm - fromCorkMm)) / 2;
}
