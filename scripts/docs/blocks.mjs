// Blocks of code in the pages of documentation, each by its kind.

export const escaped = (text) =>
  text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]);

const code = (text, name) => `<pre class="${name}" tabindex="0"><code>${escaped(text)}</code></pre>\n`;

/** An example that is shown as it is written, and may be edited. */
const live = (text) => `<div class="live">
<textarea rows="${text.split('\n').length + 1}" spellcheck="false" aria-label="Example, to edit">${escaped(text)}</textarea>
<button type="button">Show</button>
<div class="shown"></div>
</div>
`;

/** @param {string} kind what stands behind the fence: `html` is shown, `text` is what code before it prints, `said` what code of another language does */
export function blockView(kind, text) {
  if (kind === 'html') return live(text);
  return code(text, kind === 'text' || kind === 'said' ? 'said' : 'code');
}

/** The blocks of a page in their order. */
export const blocksOf = (markdown) =>
  [...markdown.matchAll(/^```(\S+)\n([\s\S]*?)^```$/gm)].map(([, kind, text]) => ({ kind, text }));
