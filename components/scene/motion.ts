/** How long the hinge, a change of view and the lifting of a slice take, ms. */
const TURN_MS = 420;

export const held = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most);

/**
 * Calls once a frame with the share of a movement that is done, eased, up to 1.
 *
 * @returns Ends it where it stands.
 */
export function overTime(move: (share: number) => void): () => void {
  let start: number | undefined;
  let request = 0;
  const step = (now: number) => {
    start ??= now;
    const t = held((now - start) / TURN_MS, 0, 1);
    move(t * t * (3 - 2 * t));
    if (t < 1) request = requestAnimationFrame(step);
  };
  request = requestAnimationFrame(step);
  return () => cancelAnimationFrame(request);
}
