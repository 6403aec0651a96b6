import type { FileShape } from '../../shared/settings.ts';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import type { CsvOutcome } from '../../src/exchange/csv/read-csv.ts';

/** More kinds of files than one maker uses; the oldest is forgotten first. */
const MOST_SHAPES = 40;

/** Shape of each file that was read, by its name. */
export function shapesOf(outcome: CsvOutcome): ReadonlyMap<string, string> {
  return new Map(outcome.outcome === 'refused' ? [] : outcome.files.map(({ name, shape }) => [name, shape]));
}

/** What was answered last time for files of the shapes that a first reading found open, by file name. */
export function answersFor(
  outcome: CsvOutcome | undefined,
  remembered: readonly FileShape[],
): ReadonlyMap<string, CsvAnswers> {
  if (outcome?.outcome !== 'asks') return new Map();
  const found = outcome.files.flatMap(({ name, shape }) => {
    const known = remembered.find((one) => one.shape === shape);
    return known ? [[name, known.answers as CsvAnswers] as const] : [];
  });
  return new Map(found);
}

/** The remembered shapes with the answers just given; the label of a reed, what it hides and cells left open are of
 * its own file and are not kept. */
export function withAnswers(
  remembered: readonly FileShape[],
  shapes: ReadonlyMap<string, string>,
  given: ReadonlyMap<string, CsvAnswers>,
): FileShape[] {
  const fresh = [...given].flatMap(([name, all]) => {
    const { label: _, hidden: __, openCells: ___, ...answers } = all;
    const shape = shapes.get(name);
    return shape === undefined || Object.keys(answers).length === 0 ? [] : [{ shape, answers }];
  });
  const others = remembered.filter(({ shape }) => !fresh.some((one) => one.shape === shape));
  return [...others, ...fresh].slice(-MOST_SHAPES);
}
