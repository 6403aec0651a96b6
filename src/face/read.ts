/** Read: from a maker's file to the readings of reeds. Everything is in millimetres from here on. */
export { readCsv, type CsvOptions, type CsvOutcome } from '../exchange/csv/read-csv.ts';
export type { CsvFile, CsvFileFacts } from '../exchange/csv/read-file.ts';
export type { CsvAnswers, CsvQuestion } from '../exchange/csv/questions.ts';
export { OpenQuestionsError, readReeds, reedsOf, type ReadReedsOptions } from '../exchange/csv/reeds-of.ts';
export { parseReed } from '../exchange/reed-object.ts';
export type { PassDraft, ReedDraft } from '../exchange/csv/drafts.ts';
export type { FileProblem } from '../exchange/file-problem.ts';
export type { Reading } from '../../shared/reading.ts';
export { FormatError, IllPosedError, InputError, type Problem } from '../../shared/errors.ts';
