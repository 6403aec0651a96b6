import type { Vec3 } from './vec3.ts';

/** What is known of how a blade is bent; what is absent is assumed as usual. */
export interface ArchFacts {
  /** Height of the opening at the tip, mm. */
  readonly openingMm?: number;
  /** Radius of the gouged side, mm. */
  readonly gougeRadiusMm?: number;
}

/** Usual opening and inner radius of the gouge. Common practice, no source. */
const USUAL = { openingMm: 1.1, gougeRadiusMm: 4.9 };
/** From tip to heart the tip's shallow bow goes over into the gouge's round, mm. Common practice, no source. */
const REACH_MM = 8;
/** On the staple a blade is rounder than it was gouged, rad. Common practice, no source. */
const ON_STAPLE_RAD = 0.13;
/** Half-widths at the tip and at the heart that turn the facts into angles, mm. Common practice, no source. */
const HALF_WIDTH_MM = { tip: 3.5, heart: 3.2 };
/** Usual thickness of a blade's edge from the tip to the thread, mm: smooth, so that no ripple is hidden. */
const EDGE_MM = { tip: 0.05, rise: 0.48, overMm: 12 };
/** Least half-width of the gouged side, as a share of the outside's: thickness drawn large would close it. */
const LEAST_INSIDE = 0.2;

function smoothStep(from: number, to: number, value: number): number {
  const t = Math.min(Math.max((value - from) / (to - from), 0), 1);
  return t * t * (3 - 2 * t);
}

/**
 * How a blade is bent across. The outside keeps the reed's own planform; thickness stands on the gouged side along its
 * normal, drawn `factor` times. World axes of a blade: x across (right edge plus), y along (tip plus, the tip at 0), z out
 * of the bark, all in mm.
 */
export class Arch {
  readonly factor: number;
  private readonly lean: { readonly tip: number; readonly thread: number };
  private readonly halfWidthMm: (fromTipMm: number) => number;

  /** @param factor Thickness is drawn this many times larger than width and length. */
  constructor(halfWidthMm: (fromTipMm: number) => number, factor: number, facts: ArchFacts = {}) {
    const { openingMm, gougeRadiusMm } = { ...USUAL, ...facts };
    this.halfWidthMm = halfWidthMm;
    this.factor = factor;
    this.lean = {
      tip: 2 * Math.atan(openingMm / 2 / HALF_WIDTH_MM.tip),
      thread: Math.asin(Math.min(HALF_WIDTH_MM.heart / gougeRadiusMm, 0.9)) + ON_STAPLE_RAD,
    };
  }

  /** How far the normal at a blade's edge leans outwards, rad. */
  leanAt(fromTipMm: number): number {
    const { tip, thread } = this.lean;
    return tip + (thread - tip) * (1 - Math.exp(-Math.max(fromTipMm, 0) / REACH_MM));
  }

  /** A place `heightMm` of cane above the gouged side. */
  point(fromTipMm: number, across: number, heightMm: number): Vec3 {
    const lean = this.leanAt(fromTipMm);
    const angle = across * lean;
    const inside = this.insideMm(fromTipMm, lean);
    const reach = inside / Math.sin(lean) + this.factor * heightMm;
    return [reach * Math.sin(angle), -fromTipMm, reach * Math.cos(angle) - inside / Math.tan(lean)];
  }

  /** The place over which a point stands: what `point` gives, turned round. */
  placeOf([x, y, z]: Vec3): { readonly fromTipMm: number; readonly across: number } {
    const lean = this.leanAt(-y);
    const inside = this.insideMm(-y, lean);
    return { fromTipMm: -y, across: Math.atan2(x, z + inside / Math.tan(lean)) / lean };
  }

  /** The direction in which thickness stands at a place, of length 1. */
  normal(fromTipMm: number, across: number): Vec3 {
    const angle = across * this.leanAt(fromTipMm);
    return [Math.sin(angle), 0, Math.cos(angle)];
  }

  private insideMm(fromTipMm: number, lean: number): number {
    const outside = this.halfWidthMm(fromTipMm);
    const edge = EDGE_MM.tip + EDGE_MM.rise * smoothStep(0, EDGE_MM.overMm, fromTipMm);
    return Math.max(outside - this.factor * edge * Math.sin(lean), LEAST_INSIDE * outside);
  }
}
