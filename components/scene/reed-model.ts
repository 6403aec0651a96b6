import { Group, Mesh, Vector3, type Object3D } from 'three';
import { LineSegments2 } from 'three/examples/jsm/lines/LineSegments2.js';
import type { Blade, Place } from '../../shared/blade.ts';
import type { Theme } from '../theme/palette.ts';
import type { ReliefBlade, ReliefSettings } from '../relief/relief-data.ts';
import { BladeBody, type BodyParts } from './blade-body.ts';
import type { Light } from './cane-material.ts';
import { DOT_NAME, stapleOf, threadHalfMm, threadOf } from './fittings.ts';
import { lensParts, lensReach } from './lens.ts';
import { clipParts } from './clip.ts';
import { FOLDED_MM, foldedParts } from './folded.ts';
import { ghostParts } from './ghost.ts';
import { leftParts, LIFTED_MM, sliceParts } from './lifted.ts';
import type { PrintLook } from './blocks.ts';
import { floorParts, originalParts } from './sheets.ts';
import { strokesParts } from './strokes.ts';
import { place, type Pose } from './stance.ts';

/** Cane under a print that covers it is so much nearer to grey. */
const MUTED: Readonly<Record<NonNullable<ReliefBlade['print']>['is'], number>> = {
  lifted: 0,
  bridges: 0,
  light: 0,
  ghost: 0.55,
  strokes: 0.6,
};
/** The staple is in sight once the reed is closed so far. */
const STAPLE_FROM = 0.6;
/** A blade's name stands off its bark, mm of the scene. */
const NAME_LIFT_MM = 1.6;
/** Share of its thread that an opened blade shows. */
const OPENED_THREAD = 0.65;
/** Figures of a difference hang so much over the print, mm of the scene. */
export const ON_PRINT_MM = 0.9;
/** So many points of each part are looked at when the reed is fitted into the picture. */
const CORNERS = 60;

interface Standing {
  readonly body: BladeBody;
  /** Body and prints; the thread stands by itself, for a folded blade leaves it. */
  readonly cane: Group;
  readonly thread: Group;
  /** Points on their outsides. */
  readonly corners: Readonly<Record<'cane' | 'thread' | 'lifted', readonly Vector3[]>>;
  /** Its half of the opening, ahead of the tip; in sight on the staple. */
  readonly lens?: Object3D;
}

/** Some of a body's points, enough to know what it fills; lines lie on it. */
function corners(object: Object3D): Vector3[] {
  const found: Vector3[] = [];
  object.traverse((part) => {
    if (!(part instanceof Mesh) || part instanceof LineSegments2) return;
    const position = (part as Mesh).geometry.getAttribute('position');
    const step = Math.max(1, Math.floor(position.count / CORNERS));
    for (let k = 0; k < position.count; k += step)
      found.push(part.localToWorld(new Vector3().fromBufferAttribute(position, k)));
  });
  return found;
}

/** Where a place stands in the world and how it faces. */
export interface Seat {
  readonly point: Vector3;
  readonly normal: Vector3;
}

/** A reed as a body with everything that a question prints on it. Its maker calls `dispose`. */
export class ReedModel {
  readonly object = new Group();
  private readonly standing: Standing[] = [];
  private readonly parts: BodyParts[] = [];
  private readonly staple: Object3D | undefined;
  private readonly stapleCorners: readonly Vector3[] = [];
  private readonly isFolded: boolean;
  /** What was taken off, apart from the places that it left. */
  private readonly slices: Object3D[] = [];
  private lift = 1;
  private readonly fineness: number;

  /** @param fineness 1 for a picture that fills a plate, less for a small one. */
  constructor(settings: ReliefSettings, theme: Theme, light: Light, fineness = 1) {
    this.fineness = fineness;
    const { blades, stance } = settings;
    const b = blades.find(({ blade }) => blade === 'B');
    this.isFolded = stance === 'staple' && blades.length === 2 && b?.print?.is === 'bridges';
    for (const blade of blades) this.add(blade, this.lookOf(blade, settings, theme, light), settings.clipMm);
    const [first] = this.standing;
    if (first) {
      const staple = stapleOf(first.body, this.lookOf(first.body.blade, settings, theme, light));
      this.parts.push(staple);
      this.staple = staple.object;
      this.stapleCorners = corners(staple.object);
      this.object.add(staple.object);
    }
    if (this.isFolded) this.fold(settings, theme, light);
    this.liftBy(settings.lift);
  }

  /** Lifts what was taken off: 1 in full, 0 onto the place that it left. */
  liftBy(lift: number): void {
    this.lift = lift;
    for (const slice of this.slices) slice.position.z = lift * LIFTED_MM;
  }

  /** The bark of each blade, for picking. */
  get barks(): Mesh[] {
    return this.standing.map(({ body }) => body.parts.object.children[0] as Mesh);
  }

  /** The place under a point of a bark. */
  placeOn(bark: Object3D, point: Vector3): Place | undefined {
    const found = this.standing.find(({ body }) => body.parts.object.children[0] === bark);
    if (!found) return undefined;
    const { x, y, z } = found.cane.worldToLocal(point.clone());
    return { blade: found.body.blade.blade, ...found.body.surface.arch.placeOf([x, y, z]) };
  }

  /** How far off its bark a blade's name stands, mm of the scene: A's over its sheet and B's under it where it is folded. */
  nameLiftMm(blade: Blade): number {
    if (!this.isFolded) return NAME_LIFT_MM;
    return blade === 'A' ? FOLDED_MM + NAME_LIFT_MM : -NAME_LIFT_MM;
  }

  /** How far a blade's print is lifted off its place, mm of the scene. */
  liftedMm(blade: Blade): number {
    const found = this.standing.find(({ body }) => body.blade.blade === blade);
    const is = found?.body.blade.print?.is;
    return is === 'lifted' || is === 'bridges' ? this.lift * LIFTED_MM : 0;
  }

  /**
   * Where a place of a blade stands; undefined where nothing was read.
   *
   * @param offMm So far off its bark, along the normal, mm of the scene.
   * @param liftedMm So far lifted as a whole, as what was taken off is, mm of the scene.
   */
  seat({ blade, fromTipMm, across }: Place, offMm = 0, liftedMm = 0): Seat | undefined {
    const found = this.standing.find(({ body }) => body.blade.blade === blade);
    if (!found || found.body.surface.thickness.readAt(fromTipMm, across) < 0.5) return undefined;
    const { surface } = found.body;
    const [x, y, z] = surface.on(fromTipMm, across, offMm);
    const point = found.cane.localToWorld(new Vector3(x, y, z + liftedMm));
    const normal = new Vector3(...surface.arch.normal(fromTipMm, across));
    return { point, normal: normal.transformDirection(found.cane.matrixWorld) };
  }

  /** Where side 1's dot stands on a blade's thread, two points of the thread's axis, and half its width. */
  side1(blade: Blade) {
    const found = this.standing.find(({ body }) => body.blade.blade === blade);
    const ball = found?.thread.getObjectByName(DOT_NAME);
    if (!found || !ball) return undefined;
    const point = ball.getWorldPosition(new Vector3());
    const axis = [0, 1].map((mm) => found.thread.localToWorld(new Vector3(0, ball.position.y - mm, 0)));
    const normal = point.clone().sub(axis[0]!).normalize();
    return { dot: { point, normal }, axis, halfMm: threadHalfMm(found.body) };
  }

  pose(pose: Pose): void {
    for (const { body, cane, thread } of this.standing) {
      const { blade } = body.blade;
      place(cane, blade, pose);
      place(thread, blade, pose);
      // Opened, the blades have the room: less of the thread is drawn.
      thread.scale.y = OPENED_THREAD + (1 - OPENED_THREAD) * Math.min(pose.closed / STAPLE_FROM, 1);
      thread.position.y = (thread.scale.y - 1) * body.blade.bladeLengthMm;
      if (this.isFolded && blade === 'B') {
        // Bark up under A, its left edge under A's right: mirrored, as a page that is seen through.
        cane.position.set(0, 0, 0);
        cane.rotation.y = 0;
        cane.scale.x = -1;
      }
    }
    const isOnStaple = pose.closed >= STAPLE_FROM && pose.flat < 0.5;
    if (this.staple) this.staple.visible = isOnStaple;
    for (const { lens } of this.standing) if (lens) lens.visible = isOnStaple;
    this.object.updateMatrixWorld(true);
  }

  /**
   * Points that have to be in sight: the blades with their thread and staple; opened whatever is printed on them, on the
   * staple with what is lifted, which leans away there.
   */
  extent(): Vector3[] {
    const points = this.standing.flatMap(({ body, cane, thread, corners, lens }) => [
      ...(lens?.visible ? lensReach(body).map((point) => cane.localToWorld(new Vector3(...point))) : []),
      ...corners.cane.map(({ x, y, z }) => cane.localToWorld(new Vector3(x, y, z + this.sheetMm(body)))),
      ...(this.staple?.visible ? corners.lifted : []).map(({ x, y, z }) =>
        cane.localToWorld(new Vector3(x, y, z + LIFTED_MM)),
      ),
      ...corners.thread.map((corner) => thread.localToWorld(corner.clone())),
    ]);
    return this.staple?.visible ? [...points, ...this.stapleCorners] : points;
  }

  /** How high A is held where it is a sheet over B, mm of the scene. */
  private sheetMm({ blade }: BladeBody): number {
    return this.isFolded && blade.blade === 'A' ? FOLDED_MM : 0;
  }

  setRatio(ratio: number): void {
    for (const { body } of this.standing) body.parts.setRatio(ratio);
    for (const parts of this.parts) parts.setRatio(ratio);
  }

  dispose(): void {
    this.object.removeFromParent();
    for (const { body } of this.standing) body.parts.dispose();
    for (const parts of this.parts) parts.dispose();
  }

  private lookOf(blade: ReliefBlade, settings: ReliefSettings, theme: Theme, light: Light): PrintLook {
    const { factor, unit, cutAtMm = 0, differenceFactor } = settings;
    const mute = blade.print ? MUTED[blade.print.is] : 0;
    const { fineness } = this;
    return { theme, light, factor, unit, fromMm: cutAtMm, mute, differenceFactor, fineness };
  }

  private add(blade: ReliefBlade, look: PrintLook, clipMm?: number) {
    const body = new BladeBody(blade, look);
    const [cane, thread] = [new Group(), new Group()];
    cane.add(body.parts.object);
    const keep = (group: Group, parts: BodyParts) => {
      this.parts.push(parts);
      group.add(parts.object);
    };
    keep(thread, threadOf(body, look));
    if (blade.floorMm) keep(cane, floorParts(body, blade.floorMm, look));
    if (blade.originalMm) keep(cane, originalParts(body, blade.originalMm, look));
    const { print } = blade;
    let lifted: Vector3[] = [];
    if (print?.is === 'lifted' || (print?.is === 'bridges' && !this.isFolded)) {
      const slice = sliceParts(body, print.difference, look);
      lifted = corners(slice.object);
      this.slices.push(slice.object);
      keep(cane, slice);
      keep(cane, leftParts(body, print.difference, look));
    }
    const lens = blade.corners && look.fromMm === 0 ? lensParts(body, look) : undefined;
    if (lens) keep(cane, lens);
    if (print?.is === 'ghost') keep(cane, ghostParts(body, print.targetMm, print.difference, look));
    if (print?.is === 'strokes') keep(cane, strokesParts(body, print.outlines, look));
    if (clipMm) keep(cane, clipParts(body, clipMm, look));
    this.standing.push({
      body,
      cane,
      thread,
      corners: { cane: corners(body.parts.object), thread: corners(thread), lifted },
      ...(lens && { lens: lens.object }),
    });
    this.object.add(cane, thread);
  }

  private fold(settings: ReliefSettings, theme: Theme, light: Light) {
    const [a, b] = ['A', 'B'].map((name) =>
      this.standing.find(({ body }) => body.blade.blade === (name as Blade)),
    );
    if (!a || !b || a.body.blade.print?.is !== 'bridges') return;
    const look = this.lookOf(a.body.blade, settings, theme, light);
    const parts = foldedParts(b.body, a.body, a.body.blade.print.difference, look);
    this.parts.push(parts);
    a.cane.add(parts.object);
    a.body.parts.object.visible = false;
  }
}
