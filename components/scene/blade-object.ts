import {
  BufferAttribute,
  BufferGeometry,
  DataTexture,
  DoubleSide,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineDashedMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  Plane,
  Points,
  PointsMaterial,
  RGBAFormat,
  SRGBColorSpace,
  Vector3,
  type Material,
  type Object3D,
} from 'three';
import { gridPlaces, gridValue } from '../map/blade-drawing.ts';
import { contoursOf } from '../map/level-lines.ts';
import type { OutlinePoint } from '../map/map-data.ts';
import { channels } from '../theme/contrast.ts';
import { PALETTE, type Theme } from '../theme/palette.ts';
import { ramp } from '../theme/ramp.ts';
import type { ReliefBlade, ReliefSettings } from '../relief/relief-data.ts';
import { bladeSolid, cutFace, pointOver, rim, sheet, type Faces, type ThickFaces } from './blade-solid.ts';

/** A fine contour line is left out where its neighbours are nearer: about 3 CSS pixels when all is in sight. */
const LEAST_CONTOUR_GAP_MM = 0.3;
/** How all blades of a picture are drawn. */
type Look = Pick<ReliefSettings, 'lay' | 'exaggeration' | 'unit'>;

/** Lines lie this much above the bark, so that they are not half swallowed by it: scene units. */
const LIFT = 0.02;
const OUTLINE_STEPS = 12;
/** Bark this little above its floor is marked, mm. Common practice, no source. */
const NEAR_FLOOR_MM = 0.02;
/** Walls and underside are this much darker than the bark at the same thickness. */
const WALL_SHADE = '#b4b4b4';

function geometry({ positions, indices }: Faces): BufferGeometry {
  const made = new BufferGeometry();
  made.setAttribute('position', new BufferAttribute(positions, 3));
  made.setIndex(new BufferAttribute(indices, 1));
  return made;
}

function segments(points: readonly number[]): BufferGeometry {
  const made = new BufferGeometry();
  made.setAttribute('position', new BufferAttribute(Float32Array.from(points), 3));
  return made;
}

/** The ramp as a row of texels, one a band: a face shows the bands of the flat map, border for border. */
function rampTexture(theme: Theme): DataTexture {
  const texels = ramp('thickness', theme).bands.flatMap(({ colour }) => [...channels(colour), 255]);
  const texture = new DataTexture(Uint8Array.from(texels), texels.length / 4, 1, RGBAFormat);
  texture.colorSpace = SRGBColorSpace;
  texture.needsUpdate = true;
  return texture;
}

/**
 * One blade in the scene: bark in the colours of the flat map, unlit so that they are the legend's, walls, contour lines,
 * zones, pins, and where given the ghost of the cane, the floor and a cut. Holds GPU buffers: its maker calls `dispose`.
 */
export class BladeObject {
  readonly object = new Group();
  readonly blade: ReliefBlade;
  private readonly laying: Look;
  private readonly theme: Theme;
  private readonly held: { dispose(): void }[] = [];
  private readonly clip: Plane[];

  /** @param cutAtMm The tip's side of a cut here is taken away. */
  constructor(blade: ReliefBlade, laying: Look, theme: Theme, cutAtMm?: number) {
    this.blade = blade;
    this.laying = laying;
    this.theme = theme;
    this.clip = cutAtMm === undefined ? [] : [new Plane(new Vector3(0, -1, 0), -cutAtMm)];
    this.addBody();
    this.addContours();
    this.addZones();
    this.addPins();
    this.addSheets();
    if (cutAtMm !== undefined) this.addCut(cutAtMm);
  }

  /** Cuts follow the blade when it is moved: planes stand in the world. */
  placeClip(): void {
    this.object.updateMatrixWorld(true);
    for (const plane of this.clip) plane.applyMatrix4(this.object.matrixWorld);
  }

  dispose(): void {
    this.object.removeFromParent();
    for (const part of this.held.splice(0)) part.dispose();
  }

  private add(name: string, part: Object3D): void {
    part.name = name;
    this.object.add(part);
  }

  private keep<Part extends { dispose(): void }>(part: Part): Part {
    this.held.push(part);
    return part;
  }

  private material<Kind extends Material>(material: Kind): Kind {
    material.clippingPlanes = this.clip;
    return this.keep(material);
  }

  /** Faces coloured by their thickness, as on the flat map, or darker. */
  private coloured(thick: ThickFaces, color: string): Mesh {
    const { fromMm, toMm } = ramp('thickness', this.theme);
    const shape = this.keep(geometry(thick));
    const uv = new Float32Array(2 * thick.thicknessMm.length);
    thick.thicknessMm.forEach((thickness, k) => uv.set([(thickness - fromMm) / (toMm - fromMm), 0.5], 2 * k));
    shape.setAttribute('uv', new BufferAttribute(uv, 2));
    // Faces give way to the lines that lie on them.
    const behindLines = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
    const map = this.keep(rampTexture(this.theme));
    return new Mesh(
      shape,
      this.material(new MeshBasicMaterial({ map, color, side: DoubleSide, ...behindLines })),
    );
  }

  private addBody() {
    const { bark, body } = bladeSolid(this.blade, this.laying);
    this.add('bark', this.coloured(bark, '#ffffff'));
    this.add('walls', this.coloured(body, WALL_SHADE));
    this.addLines('rim', rim(this.blade, this.laying, this.blade.valuesMm), PALETTE[this.theme].ink, 1);
  }

  /** A point on the bark, lifted off it. */
  private lifted(place: OutlinePoint): number[] | undefined {
    const thicknessMm = gridValue(this.blade, this.blade.valuesMm, place);
    if (Number.isNaN(thicknessMm)) return undefined;
    const [x, y, z] = pointOver(this.blade, this.laying, place, thicknessMm);
    return [x, y, z + LIFT];
  }

  /** Line segments through places of the bark, broken where nothing was read. */
  private draped(places: readonly OutlinePoint[]): number[] {
    const points = places.map((place) => this.lifted(place));
    return points.slice(1).flatMap((to, k) => {
      const from = points[k];
      return from && to ? [...from, ...to] : [];
    });
  }

  private addContours() {
    const lines = contoursOf(this.blade, {
      quantity: 'thickness',
      unit: this.laying.unit,
      widthFactor: 1,
      leastGapMm: LEAST_CONTOUR_GAP_MM,
    });
    const drawn = (isStrong: boolean) =>
      lines
        .filter(({ strong }) => strong === isStrong)
        .flatMap((contour) => contour.lines)
        .flatMap((line) => this.draped(gridPlaces(this.blade, line)));
    const color = this.theme === 'day' ? PALETTE.day.ink : '#000000';
    this.addLines('fine contours', drawn(false), color, 0.25);
    this.addLines('strong contours', drawn(true), color, 0.75);
  }

  private addLines(name: string, points: readonly number[], color: string, opacity: number) {
    if (points.length === 0) return;
    const material = this.material(new LineBasicMaterial({ color, opacity, transparent: true }));
    this.add(name, new LineSegments(this.keep(segments(points)), material));
  }

  private addZones() {
    const { ink } = PALETTE[this.theme];
    const along = ({ points }: { readonly points: readonly OutlinePoint[] }) =>
      points.slice(1).flatMap((to, k) => {
        const from = points[k]!;
        const share = (a: number, b: number, step: number) => a + ((b - a) * step) / OUTLINE_STEPS;
        return this.draped(
          Array.from({ length: OUTLINE_STEPS + 1 }, (_, step) => ({
            fromTipMm: share(from.fromTipMm, to.fromTipMm, step),
            across: share(from.across, to.across, step),
          })),
        );
      });
    const all = this.blade.zones.flatMap(({ segments: parts }) => parts);
    const solid = all.filter(({ hangsFrom }) => hangsFrom === 'tip').flatMap(along);
    const dotted = all.filter(({ hangsFrom }) => hangsFrom === 'cane').flatMap(along);
    if (solid.length > 0) {
      const plain = this.material(new LineBasicMaterial({ color: ink }));
      this.add('zones from the tip', new LineSegments(this.keep(segments(solid)), plain));
    }
    if (dotted.length > 0) {
      const dashes = new LineDashedMaterial({ color: ink, dashSize: 0.12, gapSize: 0.2 });
      const lines = new LineSegments(this.keep(segments(dotted)), this.material(dashes));
      lines.computeLineDistances();
      this.add('zones from the thread', lines);
    }
  }

  /** From the surface to where the gauge stood: a pin's length is its residual. */
  private addPins() {
    const { pins } = this.blade;
    if (pins.length === 0) return;
    const heads = pins.flatMap((pin) => pointOver(this.blade, this.laying, pin, pin.thicknessMm));
    const stems = pins.flatMap((pin) => {
      const foot = this.lifted(pin);
      return foot ? [...foot, ...pointOver(this.blade, this.laying, pin, pin.thicknessMm)] : [];
    });
    const { ink } = PALETTE[this.theme];
    const dots = this.material(new PointsMaterial({ color: ink, size: 3, sizeAttenuation: false }));
    const thin = this.material(new LineBasicMaterial({ color: ink }));
    this.add('heads of pins', new Points(this.keep(segments(heads)), dots));
    this.add('pins', new LineSegments(this.keep(segments(stems)), thin));
  }

  private addSheets() {
    const { originalMm, floorMm, valuesMm } = this.blade;
    const { ink3, excess } = PALETTE[this.theme];
    const add = (
      name: string,
      heightMm: ArrayLike<number>,
      color: string,
      opacity: number,
      depthTest = true,
    ) => {
      const material = new MeshBasicMaterial({
        color,
        opacity,
        transparent: true,
        side: DoubleSide,
        depthWrite: false,
        depthTest,
      });
      const faces = this.keep(geometry(sheet(this.blade, this.laying, heightMm)));
      this.add(name, new Mesh(faces, this.material(material)));
    };
    if (originalMm) {
      add('cane as gouged', originalMm, ink3, 0.16);
      this.addLines('rim of the cane as gouged', rim(this.blade, this.laying, originalMm), ink3, 1);
    }
    if (!floorMm) return;
    // The floor lies inside the cane: it is drawn through the bark, and strongly on the bark where that comes near.
    add('floor', floorMm, excess, 0.16, false);
    const near = Array.from(floorMm, (floor, k) =>
      valuesMm[k]! - floor <= NEAR_FLOOR_MM ? Math.max(valuesMm[k]!, floor) : NaN,
    );
    add(
      'near its floor',
      near.map((height) => height + LIFT / this.laying.exaggeration),
      excess,
      0.6,
    );
  }

  private addCut(cutAtMm: number) {
    const faces = cutFace(this.blade, this.laying, cutAtMm);
    if (faces.indices.length === 0) return;
    const { plate, ink } = PALETTE[this.theme];
    const behindLines = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
    const face = new MeshBasicMaterial({ color: plate, side: DoubleSide, ...behindLines });
    this.add('cut', new Mesh(this.keep(geometry(faces)), this.keep(face)));
    const outline = new EdgesGeometry(this.keep(geometry(faces)));
    const thin = this.keep(new LineBasicMaterial({ color: ink }));
    this.add('rim of the cut', new LineSegments(this.keep(outline), thin));
  }
}
