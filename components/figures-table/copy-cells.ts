import { html, nothing } from 'lit';

/** Cells as a spreadsheet takes them: tabs between, a line a row, a plain minus, no line breaks inside. */
export function plainCells(rows: readonly (readonly string[])[]): string {
  const plain = (text: string) => text.replaceAll('\u2212', '-').replace(/\s+/g, ' ').trim();
  return rows.map((row) => row.map(plain).join('\t')).join('\n');
}

async function copied(rows: readonly (readonly string[])[], where: string): Promise<string> {
  try {
    await navigator.clipboard.writeText(plainCells(rows));
    return `Copied. Paste it into a spreadsheet${where}.`;
  } catch {
    return 'The browser did not let it be copied. Allow the clipboard for this page.';
  }
}

/**
 * Copies a table to the clipboard, as it stands; absent where the page may not use the clipboard.
 *
 * @param tell Told what came of it.
 * @param where Where else it may be pasted.
 */
export function copyButton(
  words: string,
  rows: () => readonly (readonly string[])[],
  tell: (said: string) => void,
  where = '',
) {
  if (!('clipboard' in navigator)) return nothing;
  return html`<button class="copy" @click=${() => void copied(rows(), where).then(tell)}>${words}</button>`;
}
