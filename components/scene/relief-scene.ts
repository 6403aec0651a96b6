import {
  Box3,
  BufferAttribute,
  BufferGeometry,
  LineBasicMaterial,
  LineSegments,
  PerspectiveCamera,
  Raycaster,
  Scene,
  Spherical,
  Vector2,
  Vector3,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { facing, type Place } from '../../shared/blade.ts';
import { locate } from '../map/blade-drawing.ts';
import { PALETTE, type Theme } from '../theme/palette.ts';
import type { ReliefBlade, ReliefSettings, ReliefView } from '../relief/relief-data.ts';
import { arrange } from './arrange.ts';
import { BladeObject } from './blade-object.ts';
import { pointOnBark } from './blade-solid.ts';
import { RendererLease } from './shared-renderer.ts';

const FIELD_OF_VIEW = 26;
const PROBE_ARM = 0.5;
const PROBE_HEIGHT = 1.5;

/** Angles of the preset views: round the upright axis from the tip, and down from the zenith. */
const ANGLES: Readonly<Record<ReliefView, { readonly turn: number; readonly tilt: number }>> = {
  map: { turn: Math.PI - 0.42, tilt: 0.78 },
  tip: { turn: -0.6, tilt: 1 },
  above: { turn: Math.PI, tilt: 0.001 },
  left: { turn: -Math.PI / 2, tilt: 1.2 },
  right: { turn: Math.PI / 2, tilt: 1.2 },
};

/** A place of a blade on the canvas, CSS pixels from its left and top. */
export interface OnCanvas {
  readonly left: number;
  readonly top: number;
  /** The bark there is seen, not the underside. */
  readonly isBark: boolean;
}

/**
 * The blades in space, seen through a camera that pointer and keys turn. Draws one frame when something has changed and
 * none while nothing does. Knows no element but its canvas; its maker calls `dispose`.
 */
export class ReliefScene {
  /** Frames drawn so far, and what the last one took. */
  frames = 0;
  drawCalls = 0;

  private readonly canvas: HTMLCanvasElement;
  private readonly drawn: () => void;
  private readonly lease: RendererLease;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(FIELD_OF_VIEW, 1, 0.5, 400);
  private readonly controls: OrbitControls;
  private readonly observer: ResizeObserver;
  private readonly ray = new Raycaster();
  private blades: BladeObject[] = [];
  private mark: LineSegments<BufferGeometry, LineBasicMaterial> | undefined;
  private settings: ReliefSettings | undefined;
  private request = 0;
  private radius = 20;
  /** Of the canvas, CSS pixels, as last observed: asked of the page, it would be laid out anew for every label. */
  private size = { width: 0, height: 0 };

  /**
   * @param drawn Called after each frame.
   * @throws Error when the browser has no WebGL.
   */
  constructor(canvas: HTMLCanvasElement, drawn: () => void) {
    this.lease = new RendererLease(() => this.invalidate());
    this.canvas = canvas;
    this.drawn = drawn;
    this.camera.up.set(0, 0, 1);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.enablePan = false;
    // The wheel scrolls the page until the picture is in focus.
    this.controls.enableZoom = false;
    this.controls.addEventListener('change', this.invalidate);
    this.observer = new ResizeObserver(() => this.resize());
    this.observer.observe(canvas);
  }

  /** Shows other blades or another arrangement; keeps the view. */
  show(settings: ReliefSettings, theme: Theme): void {
    const first = !this.settings;
    this.settings = settings;
    for (const blade of this.blades) blade.dispose();
    this.blades = settings.blades.map((blade) => new BladeObject(blade, settings, theme, settings.cutAtMm));
    arrange(this.blades, settings.arrangement);
    this.scene.add(...this.blades.map(({ object }) => object));
    for (const blade of this.blades) blade.placeClip();
    this.showProbe(settings.probe, theme);
    this.frame(settings);
    const fromTheMap = settings.blades.length > 1 && settings.cutAtMm === undefined;
    if (first) this.look(fromTheMap ? 'map' : 'tip');
    this.controls.update();
    this.invalidate();
  }

  /** Brings what is left of the blades into the middle, as near as it was for its size. */
  private frame({ cutAtMm }: ReliefSettings) {
    const box = new Box3().setFromObject(this.scene);
    if (cutAtMm !== undefined) box.max.y = Math.min(box.max.y, -cutAtMm);
    const { radius: distance, phi, theta } = this.position;
    const before = this.radius;
    this.radius = Math.max(box.getSize(new Vector3()).length() / 2, 1);
    this.controls.target.copy(box.getCenter(new Vector3()));
    this.moveCamera(new Spherical((distance * this.radius) / before, phi, theta));
  }

  /** Marks a place and the one that faces it. */
  showProbe(probe: Place | undefined, theme: Theme): void {
    this.dropMark();
    if (probe) {
      const points = [probe, facing(probe)].flatMap((place) => this.crossAt(place));
      const shape = new BufferGeometry();
      shape.setAttribute('position', new BufferAttribute(Float32Array.from(points), 3));
      const material = new LineBasicMaterial({ color: PALETTE[theme].ink, depthTest: false });
      this.mark = new LineSegments(shape, material);
      this.mark.renderOrder = 1;
      this.scene.add(this.mark);
    }
    this.invalidate();
  }

  look(view: ReliefView): void {
    const { turn, tilt } = ANGLES[view];
    this.moveCamera(new Spherical(this.distance, tilt, turn));
  }

  /** Turns by angles, rad, and comes nearer by a factor below 1. */
  move(turn: number, tilt: number, factor = 1): void {
    const { radius, phi, theta } = this.position;
    const tilted = Math.min(Math.max(phi + tilt, 0.001), Math.PI - 0.001);
    const nearest = this.radius * 0.6;
    const distance = Math.min(Math.max(radius * factor, nearest), this.distance * 3);
    this.moveCamera(new Spherical(distance, tilted, theta + turn));
  }

  set zoomByWheel(allowed: boolean) {
    this.controls.enableZoom = allowed;
  }

  /** The place of a blade under a point of the canvas, CSS pixels. */
  placeUnder(left: number, top: number): Place | undefined {
    const { width, height } = this.size;
    this.ray.setFromCamera(new Vector2((2 * left) / width - 1, 1 - (2 * top) / height), this.camera);
    const barks = this.blades.map(({ object }) => object.children[0]!);
    const hit = this.ray.intersectObjects(barks, false)[0];
    const found = this.blades.find(({ object }) => object.children[0] === hit?.object);
    if (!hit || !found) return undefined;
    const { x, y } = found.object.worldToLocal(hit.point.clone());
    return placeAt(found.blade, x, y);
  }

  /** Where a place stands on the canvas. */
  onCanvas(place: Place): OnCanvas | undefined {
    const point = this.worldPoint(place);
    if (!point) return undefined;
    const { x, y } = point.project(this.camera);
    const { width, height } = this.size;
    return {
      left: ((x + 1) / 2) * width,
      top: ((1 - y) / 2) * height,
      isBark: this.isBarkSeen(place),
    };
  }

  /** The canvas with a picture drawn just now. */
  snapshot(): HTMLCanvasElement {
    cancelAnimationFrame(this.request);
    this.request = 0;
    this.draw();
    return this.canvas;
  }

  dispose(): void {
    cancelAnimationFrame(this.request);
    this.observer.disconnect();
    this.controls.removeEventListener('change', this.invalidate);
    this.controls.dispose();
    this.dropMark();
    for (const blade of this.blades) blade.dispose();
    this.lease.dispose();
  }

  private readonly invalidate = () => {
    if (this.request !== 0) return;
    this.request = requestAnimationFrame(() => {
      this.request = 0;
      this.draw();
    });
  };

  private draw() {
    if (!this.settings || this.size.width === 0) return;
    const cost = this.lease.draw(this.scene, this.camera, this.canvas);
    if (!cost) return;
    this.frames++;
    this.drawCalls = cost.drawCalls;
    this.drawn();
  }

  private resize() {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    if (width === 0 || height === 0) return;
    this.size = { width, height };
    const ratio = Math.min(devicePixelRatio, 2);
    this.canvas.width = Math.round(width * ratio);
    this.canvas.height = Math.round(height * ratio);
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.invalidate();
  }

  /** Distance at which everything is in sight. */
  private get distance(): number {
    const half = (FIELD_OF_VIEW * Math.PI) / 360;
    const narrow = Math.min(1, this.camera.aspect);
    return (this.radius * 0.9) / (Math.sin(half) * narrow);
  }

  /** The camera's place about what it looks at: turn from the tip, tilt from the zenith. */
  private get position(): Spherical {
    const { x, y, z } = this.camera.position.clone().sub(this.controls.target);
    return new Spherical().setFromVector3(new Vector3(x, z, y));
  }

  private moveCamera(to: Spherical) {
    const { x, y, z } = new Vector3().setFromSpherical(to);
    this.camera.position.copy(this.controls.target).add(new Vector3(x, z, y));
    this.controls.update();
    this.invalidate();
  }

  private isBarkSeen({ blade: name }: Place): boolean {
    const found = this.blades.find(({ blade }) => blade.blade === name);
    return found !== undefined && found.object.worldToLocal(this.camera.position.clone()).z > 0;
  }

  private worldPoint(place: Place): Vector3 | undefined {
    const found = this.blades.find(({ blade }) => blade.blade === place.blade);
    const point = found && pointOnBark(found.blade, this.settings!, place);
    return point && found.object.localToWorld(new Vector3(...point));
  }

  /** A cross on the bark and a line up from it. */
  private crossAt(place: Place): number[] {
    const found = this.blades.find(({ blade }) => blade.blade === place.blade);
    const point = found && pointOnBark(found.blade, this.settings!, place);
    if (!found || !point) return [];
    const [x, y, z] = point;
    const local: [Vector3, Vector3][] = [
      [new Vector3(x - PROBE_ARM, y, z), new Vector3(x + PROBE_ARM, y, z)],
      [new Vector3(x, y - PROBE_ARM, z), new Vector3(x, y + PROBE_ARM, z)],
      [new Vector3(x, y, z), new Vector3(x, y, z + PROBE_HEIGHT)],
    ];
    return local.flat().flatMap((end) => found.object.localToWorld(end).toArray());
  }

  private dropMark() {
    this.mark?.removeFromParent();
    this.mark?.geometry.dispose();
    this.mark?.material.dispose();
    this.mark = undefined;
  }
}

/** The place of a blade over a point of its own plane. */
function placeAt(blade: ReliefBlade, x: number, y: number): Place {
  const [j, share] = locate(blade.ysMm, -y);
  const next = blade.halfWidthMm[Math.min(j + 1, blade.halfWidthMm.length - 1)]!;
  const half = blade.halfWidthMm[j]! + share * (next - blade.halfWidthMm[j]!);
  return { blade: blade.blade, fromTipMm: -y, across: x / half };
}
