/** The longest line that can be sound, in characters. */
const LONGEST_LINE = 200;

/**
 * Cuts a stream of text chunks into lines, however the chunks fall. Lines end with CR, LF or both; empty lines are
 * passed over; a line that will not end is dropped when it grows beyond 200 characters.
 *
 * @returns A function that takes the next chunk and gives the lines that it completes.
 */
export function lineSplitter(): (chunk: string) => string[] {
  let rest = '';
  return (chunk) => {
    const pieces = (rest + chunk).split(/[\r\n]+/);
    rest = pieces.pop() ?? '';
    if (rest.length > LONGEST_LINE) rest = rest.slice(0, LONGEST_LINE + 1);
    return pieces
      .map((piece) => piece.trim())
      .filter((piece) => piece !== '' && piece.length <= LONGEST_LINE);
  };
}
