import { Raycaster, Scene, Vector2 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { facing, type Blade, type Place } from '../../shared/blade.ts';
import type { NamedSolid } from '../../src/exchange/surfaces/glb.ts';
import type { Theme } from '../theme/palette.ts';
import type { Print } from '../map/prints.ts';
import type { ReliefSettings, ReliefView } from '../relief/relief-data.ts';
import type { BodyParts } from './blade-body.ts';
import { aim, makeLight } from './cane-material.ts';
import { isOtherBody, isOtherSlice } from './changes.ts';
import { Eye, type OnCanvas } from './eye.ts';
import { held, overTime } from './motion.ts';
import { ON_PRINT_MM, ReedModel } from './reed-model.ts';
import { markPlaces } from './place-rings.ts';
import { sceneSolids } from './scene-solids.ts';
import { RendererLease } from './shared-renderer.ts';
import { between, homeShot, type Shot } from './shot.ts';
import { ANGLES, POSES, type Angles, type Pose } from './stance.ts';

/** A picture of this height is drawn in full fineness, a smaller one in less, down to this share. */
const FINE_FROM_PX = 480;
const COARSEST = 0.2;
/** A picture is high when its width is less than so many times its height. */
const HIGH_BELOW = 1.1;
const NEAREST = 0.25;
const FURTHEST = 2.5;
const LEAST_TILT = 0.001;

/**
 * The reed in space, seen through a camera that pointer and keys turn. Draws one frame when something has changed and
 * none while nothing does. Knows no element but its canvas; its maker calls `dispose`.
 */
export class ReliefScene {
  /** Frames drawn so far, and what the last one took. */
  frames = 0;
  drawCalls = 0;
  /** Views change at once where the reader wants no motion. */
  isStill = false;

  private readonly canvas: HTMLCanvasElement;
  private readonly drawn: () => void;
  private readonly lease: RendererLease;
  private readonly scene = new Scene();
  private readonly eye = new Eye();
  private readonly controls: OrbitControls;
  private readonly observer: ResizeObserver;
  private readonly ray = new Raycaster();
  private readonly light = makeLight();
  private model: ReedModel | undefined;
  private mark: BodyParts | undefined;
  private settings: ReliefSettings | undefined;
  private theme: Theme = 'day';
  private themeOfModel: Theme | undefined;
  private pose: Pose = POSES.opened;
  private request = 0;
  private turning: (() => void) | undefined;
  private peeling: (() => void) | undefined;
  /** Where the view is on its way to. */
  private wish: Shot | undefined;
  /** Of the canvas, CSS pixels, as last observed: asked of the page, it would be laid out anew for every label. */
  private size = { width: 0, height: 0 };
  private ratio = 1;

  /**
   * @param drawn Called after each frame.
   * @throws Error when the browser has no WebGL.
   */
  constructor(canvas: HTMLCanvasElement, drawn: () => void) {
    this.lease = new RendererLease(() => this.invalidate());
    this.canvas = canvas;
    this.drawn = drawn;
    this.controls = new OrbitControls(this.eye.camera, canvas);
    this.controls.target = this.eye.target;
    this.controls.enablePan = false;
    // The page scrolls under the wheel; pinching comes nearer.
    this.controls.enableZoom = false;
    this.controls.addEventListener('change', this.invalidate);
    this.observer = new ResizeObserver(() => this.resize());
    this.observer.observe(canvas);
  }

  /** Shows other blades, another stance or print; keeps the view unless the stance is another. */
  show(settings: ReliefSettings, theme: Theme): void {
    const before = this.settings;
    this.settings = settings;
    this.theme = theme;
    if (!before || isOtherBody(before, settings) || this.themeOfModel !== theme) this.build();
    if (before && isOtherSlice(before, settings) && !this.isStill) this.peel();
    else this.model!.liftBy(settings.lift);
    aim(this.light, settings.light);
    this.showProbe(settings.probe);
    if (!before) this.set(this.home(settings.stance));
    else if (before.stance !== settings.stance) this.go(this.home(settings.stance));
    else this.set(this.shot);
  }

  /** Marks a place and the one that faces it. */
  showProbe(probe: Place | undefined): void {
    this.mark?.dispose();
    const { model, settings, theme } = this;
    this.mark = probe && model && markPlaces(model, settings?.blades ?? [], [probe, facing(probe)], theme);
    if (this.mark) {
      this.mark.setRatio(this.ratio);
      this.scene.add(this.mark.object);
    }
    this.invalidate();
  }

  /** Looks from one of the standard views. */
  look(view: ReliefView): void {
    if (!this.settings) return;
    const { stance } = this.settings;
    // On its way to another stance it goes on to that.
    const { closed, flat } = this.wish ?? this.pose;
    this.go(view === 'cork' ? this.home(stance) : { closed, flat, ...ANGLES[view], nearer: 1 });
  }

  /** Turns by angles, rad, and comes nearer by a factor below 1. */
  move(turn: number, tilt: number, factor = 1): void {
    const from = this.wish ?? this.shot;
    this.go({
      ...from,
      turn: from.turn + turn,
      tilt: held(from.tilt + tilt, LEAST_TILT, Math.PI - LEAST_TILT),
      nearer: held(from.nearer * factor, NEAREST, FURTHEST),
    });
  }

  /** From where the reed is seen now. */
  get angles(): Angles {
    const { turn, tilt } = this.shot;
    return { turn, tilt };
  }

  /** Looks at once from where another picture is seen. */
  turnTo(angles: Angles): void {
    if (this.model) this.set({ ...this.shot, ...angles });
  }

  /** Looks at once from an angle, from as far as the reed is in sight from everywhere: it keeps its size as it turns. */
  circleTo(angles: Angles): void {
    if (!this.model) return;
    this.eye.circle(this.model.extent(), angles);
    this.invalidate();
  }

  set zoomByWheel(allowed: boolean) {
    this.controls.enableZoom = allowed;
  }

  /** Left and right have changed places: the eye is on the tip's side. */
  get isFromTip(): boolean {
    const { turn, tilt } = this.shot;
    return Math.cos(turn) > 0 && tilt > 0.1;
  }

  /** Width of the picture, CSS pixels. */
  get widthPx(): number {
    return this.size.width;
  }

  /** The place of a blade under a point of the canvas, CSS pixels. */
  placeUnder(left: number, top: number): Place | undefined {
    const { width, height } = this.size;
    if (!this.model) return undefined;
    this.ray.setFromCamera(new Vector2((2 * left) / width - 1, 1 - (2 * top) / height), this.eye.camera);
    const hit = this.ray.intersectObjects(this.model.barks, false)[0];
    const place = hit && this.model.placeOn(hit.object, hit.point);
    return place && this.model.seat(place) ? place : undefined;
  }

  /** Where a place, what is printed over it, or a name there stands on the canvas; undefined where nothing was read. */
  onCanvas(place: Place, over: 'bark' | 'print' | 'name' = 'bark'): OnCanvas | undefined {
    const { model } = this;
    if (!model) return undefined;
    const { blade } = place;
    const off = { bark: 0, name: model.nameLiftMm(blade), print: ON_PRINT_MM }[over];
    const seat = model.seat(place, off, over === 'print' ? model.liftedMm(blade) : 0);
    return seat && this.eye.sees(seat, this.size);
  }

  /** Where side 1's dot and two points of its thread's axis stand on the canvas, and half the thread's width, CSS pixels. */
  side1(blade: Blade) {
    const found = this.model?.side1(blade);
    if (!found) return undefined;
    const { dot, axis, halfMm } = found;
    const [from, to] = axis.map((point) => this.eye.sees({ ...dot, point }, this.size));
    return {
      dot: this.eye.sees(dot, this.size),
      axis: [from!, to!] as const,
      halfPx: halfMm * this.eye.pxPerMm(this.size.height),
    };
  }

  /**
   * The canvas with a picture drawn just now.
   *
   * @param scale How much finer than on the screen it is drawn, for a file.
   */
  snapshot(scale = 1): HTMLCanvasElement {
    cancelAnimationFrame(this.request);
    this.request = 0;
    this.resize(scale);
    cancelAnimationFrame(this.request);
    this.request = 0;
    this.draw();
    return this.canvas;
  }

  /** What is seen as bodies in their colours, for a file. */
  solids(): NamedSolid[] {
    return this.model ? sceneSolids(this.model.object) : [];
  }

  dispose(): void {
    cancelAnimationFrame(this.request);
    this.turning?.();
    this.peeling?.();
    this.observer.disconnect();
    this.controls.removeEventListener('change', this.invalidate);
    this.controls.dispose();
    this.mark?.dispose();
    this.model?.dispose();
    this.lease.dispose();
  }

  private build() {
    this.model?.dispose();
    const fineness = held(this.canvas.clientHeight / FINE_FROM_PX, COARSEST, 1);
    this.model = new ReedModel(this.settings!, this.theme, this.light, fineness);
    this.themeOfModel = this.theme;
    this.model.setRatio(this.ratio);
    this.scene.add(this.model.object);
  }

  private home(stance: Print): Shot {
    return homeShot(stance, this.canvas.clientWidth < HIGH_BELOW * this.canvas.clientHeight);
  }

  /** Goes to a pose and a view, by way of those between unless the reader wants no motion. */
  private go(to: Shot) {
    this.turning?.();
    if (this.isStill) {
      this.set(to);
      return;
    }
    this.wish = to;
    const from = this.shot;
    this.turning = overTime((share) => {
      this.set(between(from, to, share));
      if (share === 1) this.wish = undefined;
    });
  }

  /** Lifts what was taken off from the place that it left. */
  private peel() {
    this.peeling?.();
    this.model?.liftBy(0);
    this.peeling = overTime((share) => {
      this.model?.liftBy(share * this.settings!.lift);
      this.invalidate();
    });
  }

  private set({ turn, tilt, nearer, closed, flat }: Shot) {
    const { model } = this;
    if (!model) return;
    this.pose = { closed, flat };
    model.pose(this.pose);
    this.eye.look(model.extent(), { turn, tilt, nearer });
    this.controls.update();
    this.invalidate();
  }

  private readonly invalidate = () => {
    if (this.request !== 0) return;
    this.request = requestAnimationFrame(() => {
      this.request = 0;
      this.draw();
    });
  };

  private draw() {
    if (!this.model || this.size.width === 0) return;
    const cost = this.lease.draw(this.scene, this.eye.camera, this.canvas);
    if (!cost) return;
    this.frames++;
    this.drawCalls = cost.drawCalls;
    this.drawn();
  }

  private resize(scale = 1) {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    if (width === 0 || height === 0) return;
    const isOther = width !== this.size.width || height !== this.size.height;
    this.size = { width, height };
    this.ratio = Math.min(devicePixelRatio, 3) * scale;
    const pixels = [Math.round(width * this.ratio), Math.round(height * this.ratio)] as const;
    // Setting a size empties the canvas, the same size too.
    if (this.canvas.width !== pixels[0]) this.canvas.width = pixels[0];
    if (this.canvas.height !== pixels[1]) this.canvas.height = pixels[1];
    this.model?.setRatio(this.ratio);
    this.mark?.setRatio(this.ratio);
    this.eye.aspect = width / height;
    if (this.model && isOther) this.set(this.shot);
  }

  private get shot(): Shot {
    return { ...this.pose, ...this.eye.sight };
  }
}
