import { FormatError } from '../../shared/errors.ts';

const DOUBLE_QUOTE = 34;
const BACKSLASH = 92;
const OPENING = new Set([91, 123]);
const CLOSING = new Set([93, 125]);

/** A key, never text: inside a string the quotes would be escaped. */
const PROTOTYPE_KEY = /"__proto__"\s*:/;

/** Deepest nesting of brackets outside strings, in one pass over the text. */
function depthOf(text: string): number {
  let depth = 0;
  let deepest = 0;
  let inString = false;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (inString) {
      if (code === BACKSLASH) i++;
      else if (code === DOUBLE_QUOTE) inString = false;
    } else if (code === DOUBLE_QUOTE) inString = true;
    else if (OPENING.has(code)) deepest = Math.max(deepest, ++depth);
    else if (CLOSING.has(code)) depth--;
  }
  return deepest;
}

/** Where a syntax error stands, in the words of the engine, without the text around it. */
function syntaxProblem(error: unknown): string {
  const message = error instanceof Error ? error.message : '';
  const place = /position (\d+)/.exec(message)?.[1];
  return place === undefined
    ? 'This is not whole JSON: the file may be cut off. Take another copy of it.'
    : `This is not JSON from character ${place} on. Take another copy of the file.`;
}

export interface JsonBounds {
  readonly maxChars: number;
  readonly maxDepth: number;
}

/** @throws FormatError when the text is too long, nested too deep, meddles with prototypes, or is no JSON. */
export function parseBoundedJson(text: string, { maxChars, maxDepth }: JsonBounds): unknown {
  if (text.length > maxChars) {
    throw new FormatError([
      { where: 'file', what: `It is longer than ${Math.round(maxChars / 1e6)} million characters.` },
    ]);
  }
  const depth = depthOf(text);
  if (depth > maxDepth) {
    throw new FormatError([{ where: 'file', what: `It is nested ${depth} deep; ${maxDepth} is the most.` }]);
  }
  if (PROTOTYPE_KEY.test(text)) {
    throw new FormatError([
      { where: 'file', what: 'It has the key "__proto__", which no file of ours has.' },
    ]);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new FormatError([{ where: 'file', what: syntaxProblem(error) }], { cause: error });
  }
}
