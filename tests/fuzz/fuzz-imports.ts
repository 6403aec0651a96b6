import { readFileSync } from 'node:fs';
import { FormatError, type Problem } from '../../shared/errors.ts';
import { librarySchema } from '../../shared/library.ts';
import { readingSchema } from '../../shared/reading.ts';
import { readCsv, type CsvOutcome } from '../../src/exchange/csv/read-csv.ts';
import { readLibraryText } from '../../src/ledger/library-file.ts';
import { seededRandom } from '../seeded-random.ts';
import { mutated } from './mutate.ts';

/** What became of the mutated files. */
export interface FuzzResult {
  readonly taken: number;
  readonly asked: number;
  readonly refused: number;
  readonly worstMs: number;
  readonly worstHeapMb: number;
  /** Escaped exceptions, unsound results and rejections without a sentence or a place. */
  readonly failures: readonly string[];
}

type Fate = 'taken' | 'asked' | 'refused';

const SAMPLE_LINES = 40;

/** Reads `count` mutations of valid files, one in four of them libraries, the rest CSV. Runs in the project's folder. */
export async function fuzzImports(count: number, seed: number): Promise<FuzzResult> {
  const random = seededRandom(seed);
  const sheets = ['k-117-sheet', 'k-117', 'm-142-controls', 's-026'].map((name) =>
    sample(`tests/samples/scenario/${name}.csv`),
  );
  sheets.push(
    'Reed;K-9;\nBlade A;;\n;-0,5;0,5\n1;10;12\n5;40;41\n',
    'blade\tfrom_tip_mm\tacross\tthickness\trepeat\tmood\nA\t5\t0\t43\t0\tgood\n',
  );
  const library = readFileSync('tests/unit/ledger/samples/format-0.now.json', 'utf8');
  const fates = { taken: 0, asked: 0, refused: 0 };
  const failures: string[] = [];
  let [worstMs, worstHeapMb] = [0, 0];
  for (let i = 0; i < count; i++) {
    const isLibrary = i % 4 === 3;
    const bytes = mutated(isLibrary ? library : sheets[i % sheets.length]!, random);
    const start = performance.now();
    try {
      fates[await (isLibrary ? fateOfLibrary(bytes) : fateOfCsv(bytes))] += 1;
    } catch (error) {
      failures.push(`seed ${seed}, file ${i}: ${error instanceof Error ? error.message : String(error)}`);
    }
    worstMs = Math.max(worstMs, performance.now() - start);
    worstHeapMb = Math.max(worstHeapMb, process.memoryUsage().heapUsed / 1e6);
  }
  return { ...fates, worstMs, worstHeapMb, failures };
}

function sample(path: string): string {
  return readFileSync(path, 'utf8').split('\n').slice(0, SAMPLE_LINES).join('\n');
}

async function fateOfCsv(bytes: Uint8Array): Promise<Fate> {
  const outcome: CsvOutcome = await readCsv([{ name: 'x.csv', bytes }]);
  if (outcome.outcome === 'refused') return explained(outcome.problems);
  if (outcome.outcome === 'asks') {
    if (outcome.questions.some(({ sentence }) => !sentence.endsWith('.') && !sentence.endsWith('?')))
      throw new Error('a question without a sentence');
    return 'asked';
  }
  const { reeds } = outcome;
  for (const { label, passes } of reeds) {
    if (label.trim() === '' || passes.length === 0) throw new Error('a reed without label or passes');
    for (const { readings } of passes) readings.forEach((reading) => readingSchema.parse(reading));
  }
  return 'taken';
}

async function fateOfLibrary(bytes: Uint8Array): Promise<Fate> {
  try {
    librarySchema.parse(await readLibraryText(new TextDecoder().decode(bytes)));
    return 'taken';
  } catch (error) {
    if (error instanceof FormatError) return explained(error.problems);
    throw error;
  }
}

function explained(problems: readonly Problem[]): Fate {
  if (problems.length === 0 || problems.some(({ where, what }) => where === '' || what === '')) {
    throw new Error('a rejection without a place or a sentence');
  }
  return 'refused';
}
