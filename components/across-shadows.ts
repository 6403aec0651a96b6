/**
 * For events that an element far above is to hear, through the shadows between. Every other event stays with its element:
 * whoever places that listens to it there.
 *
 * bench-copy-made, bench-crow-heard, bench-gauge-check, bench-gauge-connection, bench-gauge-facts, bench-gauge-study,
 * bench-invented-reeds, bench-map-facing, bench-map-line-move, bench-map-probe, bench-map-station-open, bench-newer-version-use,
 * bench-round-put-down, bench-round-start
 */
export const ACROSS_SHADOWS: EventInit = { bubbles: true, composed: true };

/** For `change` of what stands in a form, which others hear as they hear a field's. */
export const AS_NATIVE: EventInit = { bubbles: true };
