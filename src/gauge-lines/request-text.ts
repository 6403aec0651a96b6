/** Signs that a keyboard cannot type into a field, as makers of instruments write them. */
const WRITTEN: Readonly<Record<string, string>> = { '\\r': '\r', '\\n': '\n', '\\t': '\t', '\\e': '\u001b' };
const USUAL_END = '\r';

/**
 * What is sent to a gauge that must be asked, from what its maker's book says: `\r`, `\n`, `\t` and `\e` stand for the
 * end of a line, a new line, a tab and an escape. Without any of them it ends as a line does.
 */
export function requestOf(written: string): string {
  const sent = written.replace(/\\[rnte]/g, (sign) => WRITTEN[sign] ?? sign);
  return sent === written ? `${written}${USUAL_END}` : sent;
}

/** A request as it is written; what `requestOf` makes of it is the request again. */
export function requestText(request: string): string {
  const bare = request.slice(0, -1);
  const isPlain = !Object.values(WRITTEN).some((sent) => bare.includes(sent));
  if (request.endsWith(USUAL_END) && isPlain) return bare;
  return Object.entries(WRITTEN).reduce((text, [sign, sent]) => text.replaceAll(sent, sign), request);
}
