import { Group, Mesh, type BufferGeometry, type Material } from 'three';
import { MM_PER, type ThicknessUnit } from '../../shared/units.ts';
import { LAMP } from '../lamp/light.ts';
import type { OutlinePoint } from '../map/map-data.ts';
import { PALETTE, type Theme } from '../theme/palette.ts';
import { bandPosition, ramp } from '../theme/ramp.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import { BladeSurface } from './blade-surface.ts';
import { evenly, ribbonFaces, sheetFaces } from './body-faces.ts';
import { BladeField } from './blade-field.ts';
import { caneMaterial, glowMaterial, plainMaterial, type Light } from './cane-material.ts';
import { FatLines, type Stroke } from './fat-line.ts';
import { MATTER } from './look.ts';
import type { Vec3 } from './vec3.ts';

/** Cut faces and the gouged side against a lamp. */
const AGAINST_LIGHT = { inside: '#160d05', cut: '#2c1a0b' };
/** Fineness of the bark and of what is simpler. */
const FINE = { along: 180, across: 72 };
const COARSE = { along: 60, across: 24 };
/** Steps at a fineness of 0 to 1, enough for the outline to stay smooth. */
export const stepsFor = (steps: number, fineness: number) => Math.max(12, Math.round(steps * fineness));
/** Lines lie this much above the bark, so that it does not half swallow them, mm of the scene. */
export const LIFT_MM = 0.035;
const OUTLINE_STEPS = 14;
/** A contour line each five hundredths or two thousandths of an inch, every other one stronger. */
const contourMm = (unit: ThicknessUnit) => (unit === 'thou' ? 2 * MM_PER.thou : 5 * MM_PER.hundredths);

/** How a body is drawn. */
export interface BodyLook {
  readonly theme: Theme;
  readonly light: Light;
  readonly factor: number;
  readonly unit: ThicknessUnit;
  /** Where the body begins, mm from the tip: a cut across. */
  readonly fromMm: number;
  /** 0 the ramp's own colours, 1 nearly grey. */
  readonly mute: number;
  /** 1 for a picture that fills a plate, less for a small one. */
  readonly fineness: number;
  readonly opacity?: number;
}

/** Holds what is drawn of a blade and frees it; its maker calls `dispose`. */
export class BodyParts {
  readonly object = new Group();
  private readonly held: { dispose(): void }[] = [];
  private readonly lines: FatLines[] = [];

  mesh(name: string, geometry: BufferGeometry, material: Material): Mesh {
    this.held.push(geometry, material);
    const made = new Mesh(geometry, material);
    made.name = name;
    this.object.add(made);
    return made;
  }

  line(name: string, runs: readonly (readonly Vec3[])[], stroke: Stroke): void {
    const drawn = runs.filter(({ length }) => length > 1);
    if (drawn.length === 0) return;
    const lines = new FatLines(drawn, stroke);
    lines.object.name = name;
    this.lines.push(lines);
    this.object.add(lines.object);
  }

  /** @param ratio Pixels of the canvas in a CSS pixel. */
  setRatio(ratio: number): void {
    for (const line of this.lines) line.setRatio(ratio);
  }

  dispose(): void {
    this.object.removeFromParent();
    for (const part of [...this.held.splice(0), ...this.lines.splice(0)]) part.dispose();
  }
}

/** One blade as a body of cane: bark in the ramp's colours, gouged side, cut faces, outline and zones. */
export class BladeBody {
  readonly parts = new BodyParts();
  readonly surface: BladeSurface;
  private readonly look: BodyLook;

  constructor(blade: ReliefBlade, look: BodyLook) {
    this.surface = new BladeSurface(blade, look.factor);
    this.look = look;
    this.addBark();
    this.addInside();
    this.addOutline();
    this.addZones();
  }

  get blade(): ReliefBlade {
    return this.surface.blade;
  }

  /** Distances from the tip (or the cut) to the thread. */
  ys(steps = FINE.along): number[] {
    return evenly(this.look.fromMm, this.blade.bladeLengthMm, stepsFor(steps, this.look.fineness));
  }

  /** Positions from the left edge to the right. */
  us(steps = FINE.across): number[] {
    return evenly(-1, 1, stepsFor(steps, this.look.fineness));
  }

  private addBark() {
    const { surface, look } = this;
    const step = contourMm(look.unit);
    const scale = ramp('thickness', look.theme);
    const { print } = this.blade;
    const cane = print?.is === 'light' ? new BladeField(this.blade, print.caneMm) : undefined;
    const geometry = sheetFaces(this.ys(), this.us(), (y, u) => {
      const thickness = surface.thickness.at(y, u);
      return {
        point: surface.arch.point(y, u, thickness),
        print: {
          band: bandPosition(scale, thickness),
          level: cane ? cane.at(y, u) : thickness / step,
          ripple: surface.shadeOfRipple(y, u),
          known: surface.thickness.readAt(y, u),
        },
      };
    });
    const { bark, contour } = MATTER[look.theme];
    const skin =
      print?.is === 'light'
        ? glowMaterial(print.attenuationPerMm, LAMP, look.light)
        : caneMaterial({ ...look, bark, contour });
    this.parts.mesh('bark', geometry, skin);
  }

  private addInside() {
    const { arch, thickness } = this.surface;
    const { theme, light, fromMm } = this.look;
    const { inside, cut } = this.blade.print?.is === 'light' ? AGAINST_LIGHT : MATTER[theme];
    const ys = this.ys(COARSE.along);
    const flat = sheetFaces(ys, this.us(COARSE.across), (y, u) => ({
      point: arch.point(y, u, 0),
      print: {},
    }));
    this.parts.mesh('gouged side', flat, plainMaterial(inside, light, { grain: 0.08 }));
    const wall = (places: readonly OutlinePoint[]) =>
      ribbonFaces(
        places.map(({ fromTipMm, across }) => arch.point(fromTipMm, across, 0)),
        places.map(({ fromTipMm, across }) => arch.point(fromTipMm, across, thickness.at(fromTipMm, across))),
      );
    for (const across of [-1, 1])
      this.parts.mesh(
        'cut edge',
        wall(this.ys().map((fromTipMm) => ({ fromTipMm, across }))),
        plainMaterial(cut, light, { grain: 0.16 }),
      );
    const front = this.us().map((across) => ({ fromTipMm: fromMm, across }));
    this.parts.mesh('front', wall(front), plainMaterial(cut, light));
  }

  private addOutline() {
    const { surface, look } = this;
    const { ink } = PALETTE[look.theme];
    const edge = (across: number) => this.ys(COARSE.along * 2).map((y) => surface.on(y, across, LIFT_MM));
    const front = this.us();
    this.parts.line('outline', [edge(-1), edge(1), front.map((u) => surface.on(look.fromMm, u, LIFT_MM))], {
      colour: ink,
      width: 1.6,
    });
    const low = (u: number) => this.ys(COARSE.along).map((y) => surface.arch.point(y, u, 0));
    this.parts.line(
      'lower outline',
      [low(-1), low(1), front.map((u) => surface.arch.point(look.fromMm, u, 0))],
      { colour: ink, width: 0.8, opacity: 0.7 },
    );
  }

  /** A run of places on the bark, broken where nothing was read or the cane is cut away. */
  draped(places: readonly OutlinePoint[]): Vec3[][] {
    const runs: Vec3[][] = [[]];
    places.forEach((from, k) => {
      const to = places[k + 1] ?? from;
      for (let step = 0; step < (places[k + 1] ? OUTLINE_STEPS : 1); step++) {
        const share = step / OUTLINE_STEPS;
        const y = from.fromTipMm + share * (to.fromTipMm - from.fromTipMm);
        const u = from.across + share * (to.across - from.across);
        if (y >= this.look.fromMm && this.surface.thickness.readAt(y, u) >= 0.5)
          runs.at(-1)!.push(this.surface.on(y, u, LIFT_MM));
        else if (runs.at(-1)!.length > 0) runs.push([]);
      }
    });
    return runs;
  }

  private addZones() {
    const { ink } = PALETTE[this.look.theme];
    const all = this.blade.zones.flatMap(({ segments }) => segments);
    const runs = (end: 'tip' | 'cane') =>
      all.filter(({ hangsFrom }) => hangsFrom === end).flatMap(({ points }) => this.draped(points));
    this.parts.line('zones from the tip', runs('tip'), { colour: ink, width: 1.15 });
    this.parts.line('zones from the thread', runs('cane'), {
      colour: ink,
      width: 1.4,
      dash: [0.09, 0.2],
    });
  }
}
