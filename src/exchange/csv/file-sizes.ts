import type { Problem } from '../../../shared/errors.ts';
import { tooLarge } from '../text.ts';
import { MAX_CSV_BYTES } from './read-file.ts';

/** All files of one sitting together, in bytes. Our own number, common practice. */
const MAX_TOGETHER_BYTES = 20e6;

/** What is too large among files, before anything of them is read. */
export function sizeProblems(files: readonly { readonly name: string; readonly size: number }[]): Problem[] {
  const large = files.flatMap(({ name, size }) => {
    const what = tooLarge(size, MAX_CSV_BYTES);
    return what === undefined ? [] : [{ where: files.length > 1 ? `${name}, file` : 'file', what }];
  });
  const together = files.reduce((sum, { size }) => sum + size, 0);
  if (large.length > 0 || together <= MAX_TOGETHER_BYTES) return large;
  const most = MAX_TOGETHER_BYTES / 1e6;
  const what = `They have ${(together / 1e6).toFixed(1)} MB together, more than ${most.toFixed(1)} MB. Choose fewer at a time.`;
  return [{ where: 'files', what }];
}
