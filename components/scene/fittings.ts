import { Mesh, SphereGeometry } from 'three';
import { side1Of } from '../map/blade-drawing.ts';
import { PALETTE } from '../theme/palette.ts';
import type { BladeBody, BodyLook } from './blade-body.ts';
import { BodyParts } from './blade-body.ts';
import { evenly, sheetFaces } from './body-faces.ts';
import { plainMaterial } from './cane-material.ts';
import { MATTER } from './look.ts';
import type { Vec3 } from './vec3.ts';

/**
 * Lengths behind the thread's beginning, and radii, mm: thread, staple and cork are drawn short. Common practice, no
 * source.
 */
const THREAD = { lengthMm: 3.3, turnMm: 0.55, bulgeMm: 0.1, aroundMm: 0.3 };
const STAPLE = { bareMm: 2.4, corkMm: 4, radiusMm: 2.45, corkRadiusMm: 3.1, wallMm: 0.3 };
const DOT = { radiusMm: 0.55, ringMm: 0.7, behindMm: 1.6 };
/** What the dot is called in a scene. */
export const DOT_NAME = 'side 1';
const AROUND_STEPS = 48;

interface Oval {
  readonly acrossMm: number;
  readonly upMm: number;
}

/** Half width and height of what the thread lies on. */
function ovalOf({ surface }: BladeBody): Oval {
  const end = surface.blade.bladeLengthMm;
  const height = surface.thickness.at(end, 0);
  return {
    acrossMm: surface.thickness.halfWidthMm(end) + THREAD.aroundMm,
    upMm: surface.arch.point(end, 0, height)[2] + THREAD.aroundMm,
  };
}

/** Half the width of the thread round a reed, mm. */
export const threadHalfMm = (body: BladeBody) => ovalOf(body).acrossMm + THREAD.bulgeMm;

/** A point of an oval about the reed's length: 0 up, side 2 at a quarter turn. */
const onOval = ({ acrossMm, upMm }: Oval, angle: number, y: number): Vec3 => [
  acrossMm * Math.sin(angle),
  y,
  upMm * Math.cos(angle),
];

/** Thread over a blade's half of the reed, and side 1's dot on it. */
export function threadOf(body: BladeBody, look: BodyLook): BodyParts {
  const parts = new BodyParts();
  const oval = ovalOf(body);
  const end = body.blade.bladeLengthMm;
  const { thread } = MATTER[look.theme];
  const half = sheetFaces(
    evenly(end, end + THREAD.lengthMm, Math.round((THREAD.lengthMm / THREAD.turnMm) * 8)),
    evenly(-1, 1, AROUND_STEPS / 2),
    (y, u) => {
      const bulge = THREAD.bulgeMm * Math.abs(Math.sin((Math.PI * (y - end)) / THREAD.turnMm));
      const grown = { acrossMm: oval.acrossMm + bulge, upMm: oval.upMm + bulge };
      return { point: onOval(grown, (u * Math.PI) / 2, -y), print: {} };
    },
  );
  parts.mesh('thread', half, plainMaterial(thread, look.light, { gloss: 0.08 }));
  addDot(parts, oval, body, look);
  return parts;
}

/** Which way an oval's surface looks at a point of it. */
const facingOut = ({ acrossMm, upMm }: Oval, angle: number) =>
  Math.atan2(Math.sin(angle) / acrossMm, Math.cos(angle) / upMm);

function addDot(parts: BodyParts, oval: Oval, { blade }: BladeBody, { theme, light }: BodyLook) {
  const angle = side1Of(blade.blade) * (Math.PI / 2 - 0.75);
  const at = onOval(oval, angle, -blade.bladeLengthMm - DOT.behindMm);
  const { plate, ink } = PALETTE[theme];
  const ball = (name: string, radius: number, colour: string, depth: number) => {
    const made: Mesh = parts.mesh(name, new SphereGeometry(radius, 24, 16), plainMaterial(colour, light));
    made.position.set(...at);
    // Flat on the thread: a dot, not a bead.
    made.scale.set(depth, 1, 1);
    made.rotation.y = facingOut(oval, angle) - Math.PI / 2;
  };
  ball('ring of side 1', DOT.ringMm, plate, 0.25);
  ball(DOT_NAME, DOT.radiusMm, ink, 0.5);
}

/** The staple with its cork behind a reed's thread, drawn short, its mouth open. */
export function stapleOf(body: BladeBody, look: BodyLook): BodyParts {
  const parts = new BodyParts();
  const oval = ovalOf(body);
  const { metal, bore, cork } = MATTER[look.theme];
  const from = body.blade.bladeLengthMm + THREAD.lengthMm;
  const ring = (lengthMm: number, one: Oval, other: Oval) =>
    sheetFaces(evenly(lengthMm, lengthMm + 1, 1), evenly(-1, 1, AROUND_STEPS), (y, u) => {
      const isEnd = y > lengthMm + 0.5;
      return { point: onOval(isEnd ? other : one, u * Math.PI, 0), print: {} };
    });
  const round = (radiusMm: number): Oval => ({ acrossMm: radiusMm, upMm: radiusMm });
  const tube = (fromMm: number, toMm: number, one: Oval, other: Oval) => {
    const made = ring(0, one, other);
    const position = made.getAttribute('position');
    for (let k = 0; k < position.count; k++) position.setY(k, k > AROUND_STEPS ? -toMm : -fromMm);
    made.computeVertexNormals();
    return made;
  };
  const { radiusMm, corkRadiusMm, wallMm, bareMm, corkMm } = STAPLE;
  const shine = plainMaterial(metal, look.light, { gloss: 0.35 });
  const [bareEnd, corkEnd] = [from + bareMm, from + bareMm + corkMm];
  const inner = round(radiusMm - wallMm);
  parts.mesh('staple', tube(from, bareEnd, oval, round(radiusMm)), shine);
  const corkSkin = plainMaterial(cork, look.light, { grain: 0.3 });
  parts.mesh('end of the cork', tube(bareEnd, bareEnd, round(radiusMm), round(corkRadiusMm)), corkSkin);
  parts.mesh('cork', tube(bareEnd, corkEnd, round(corkRadiusMm), round(corkRadiusMm)), corkSkin);
  parts.mesh('face of the cork', tube(corkEnd, corkEnd, round(corkRadiusMm), round(radiusMm)), corkSkin);
  parts.mesh('mouth of the staple', tube(corkEnd + 0.02, corkEnd + 0.02, round(radiusMm), inner), shine);
  parts.mesh('bore', tube(corkEnd, from, inner, round(1.4)), plainMaterial(bore, look.light));
  return parts;
}
