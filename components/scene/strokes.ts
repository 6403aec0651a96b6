import type { OutlinePoint } from '../map/map-data.ts';
import { PALETTE } from '../theme/palette.ts';
import { BodyParts, type BladeBody, type BodyLook } from './blade-body.ts';
import { PRINT_STEPS } from './blocks.ts';
import { sheetFaces } from './body-faces.ts';
import { paintMaterial } from './cane-material.ts';

/** Strokes lie this much off the bark, mm of the scene. */
const PAINT_MM = 0.05;

/** The places that the plan asks to scrape, painted on the bark inside their outline, and nothing beside them. */
export function strokesParts(
  body: BladeBody,
  outlines: readonly (readonly OutlinePoint[])[],
  look: BodyLook,
): BodyParts {
  const parts = new BodyParts();
  const { strokes, ink, plate } = PALETTE[look.theme];
  // Dark in every look: told from the paint and from the cane beside it.
  const edge = look.theme === 'day' ? ink : plate;
  const ys = body.ys(PRINT_STEPS.along);
  const skin = paintMaterial(strokes, look.light);
  for (const outline of outlines) {
    const depth = insideBy(outline, (y) => body.surface.thickness.halfWidthMm(y));
    const paint = sheetFaces(ys, body.us(PRINT_STEPS.across), (y, u) => ({
      point: body.surface.on(y, u, PAINT_MM),
      print: { known: depth(y, u) },
    }));
    parts.mesh('strokes', paint, skin);
    const run = [...outline, outline[0]!].map(({ fromTipMm, across }) =>
      body.surface.on(fromTipMm, across, PAINT_MM),
    );
    parts.line('outline of the strokes', [run], { colour: edge, width: 2.4 });
  }
  return parts;
}

/** How far a place lies inside a closed outline, mm; below 0 outside. */
function insideBy(outline: readonly OutlinePoint[], halfWidthMm: (fromTipMm: number) => number) {
  const corners = outline.map(
    ({ fromTipMm, across }) => [across * halfWidthMm(fromTipMm), fromTipMm] as const,
  );
  return (fromTipMm: number, across: number) => {
    const x = across * halfWidthMm(fromTipMm);
    let isInside = false;
    let nearest = Infinity;
    corners.forEach(([x1, y1], k) => {
      const [x2, y2] = corners[(k + 1) % corners.length]!;
      if (y1 > fromTipMm !== y2 > fromTipMm && x < x1 + ((fromTipMm - y1) / (y2 - y1)) * (x2 - x1))
        isInside = !isInside;
      const [dx, dy] = [x2 - x1, y2 - y1];
      const share = Math.min(
        Math.max(((x - x1) * dx + (fromTipMm - y1) * dy) / (dx * dx + dy * dy || 1), 0),
        1,
      );
      nearest = Math.min(nearest, Math.hypot(x - x1 - share * dx, fromTipMm - y1 - share * dy));
    });
    return isInside ? nearest : -nearest;
  };
}
