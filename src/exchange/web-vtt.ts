/** Words that stand under a moving picture from one moment to another, seconds from its beginning. */
export interface Cue {
  readonly fromS: number;
  readonly toS: number;
  readonly words: string;
}

/**
 * Captions as the text of a WebVTT file.
 *
 * Source: WebVTT: The Web Video Text Tracks Format, W3C Candidate Recommendation 2019, section 4.
 *
 * @param cues In the order of their beginnings.
 */
export function writeVtt(cues: readonly Cue[]): string {
  const blocks = cues.map(
    ({ fromS, toS, words }) => `${timestamp(fromS)} --> ${timestamp(toS)}\n${escaped(words)}\n`,
  );
  return `WEBVTT\n\n${blocks.join('\n')}`;
}

function timestamp(seconds: number): string {
  const ms = Math.round(1000 * seconds);
  const part = (value: number, digits: number) => String(Math.floor(value)).padStart(digits, '0');
  return `${part(ms / 3_600_000, 2)}:${part((ms / 60_000) % 60, 2)}:${part((ms / 1000) % 60, 2)}.${part(ms % 1000, 3)}`;
}

const escaped = (words: string) =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('\n', ' ');
