import { describe, expect, it } from 'vitest';
import type { GougeReading, Lot, Piece } from '../../shared/cane.ts';
import { makeId } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import { pieceEvenness } from '../../src/cane/evenness.ts';
import { byGouger, gougeDrift, hasMoved, meanOfPieces } from '../../src/cane/gouge-drift.ts';
import { gougeNoise, USUAL_GOUGE_NOISE } from '../../src/cane/gouge-noise.ts';
import { lotYield } from '../../src/cane/lot-yield.ts';
import { arcOf, originalCane } from '../../src/cane/original-cane.ts';
import { correctedOutline } from '../../src/cane/shape-since.ts';
import { compareShapes, planformOf, shapeFigures, widthAt } from '../../src/cane/shapes.ts';
import { tieGeometry } from '../../src/cane/tie-geometry.ts';
import { compareGouge, STARTING_GOUGE } from '../../src/cane/wished-gouge.ts';
import { halfWidthAt } from '../../src/blade/planform.ts';

let count = 0;
const newId = () => makeId(1_700_000_000_000, new Uint8Array(10).fill(count++));
const stamp = () => ({
  formatVersion: 1 as const,
  id: newId(),
  versions: {},
  createdAt: '2026-01-01T10:00:00.000+00:00',
  updatedAt: '2026-01-01T10:00:00.000+00:00',
});
const at = (alongMm: number, arcMm: number, hundredths: number): GougeReading => ({
  alongMm,
  arcMm,
  thicknessMm: hundredths / 100,
});
const piece = (own: Partial<Piece>): Piece => ({
  kind: 'piece',
  ...stamp(),
  lotId: newId(),
  number: 1,
  readings: [],
  ...own,
});
/** A piece with unequal sides: 48 on side 1, 43 on side 2. Invented. */
const UNEVEN = [
  at(15, -4.3, 48),
  at(15, 0, 59),
  at(15, 4.3, 43),
  at(60, -4.3, 48),
  at(60, 0, 59),
  at(60, 4.3, 43),
];

describe('evenness of a piece', () => {
  it('takes side 1 from side 2 at equal distances, with the doubt of both means', () => {
    const noise = { seatingMm: 0.004, stepMm: 0, placementMm: 0 };
    const { centre, sides, sideDifference } = pieceEvenness(UNEVEN, noise);
    expect(centre!.valueMm).toBeCloseTo(0.59, 12);
    expect(centre!.uMm).toBeCloseTo(0.004 / Math.sqrt(2), 12);
    expect(sides!.valueMm).toBeCloseTo(0.455, 12);
    expect(sideDifference!.valueMm).toBeCloseTo(0.05, 12);
    expect(sideDifference!.uMm).toBeCloseTo(0.004, 12);
  });

  it('does not pair a side with one read elsewhere', () => {
    expect(pieceEvenness([at(15, -4.3, 48), at(15, 3, 50)]).sideDifference).toBeUndefined();
  });

  it('follows the centre along the piece', () => {
    const { along10mm, centreRange } = pieceEvenness([at(15, 0, 58), at(35, 0, 59), at(55, 0, 60)], {
      seatingMm: 0.004,
      stepMm: 0,
      placementMm: 0,
    });
    expect(along10mm!.valueMm).toBeCloseTo(0.005, 12);
    // Slope of a straight line: u / sqrt(sum of squared distances) = 0.004 / sqrt(800), over 10 mm.
    expect(along10mm!.uMm).toBeCloseTo(0.04 / Math.sqrt(800), 12);
    expect(centreRange!.valueMm).toBeCloseTo(0.02, 12);
  });

  it('says nothing where nothing was read', () => {
    expect(pieceEvenness([])).toEqual({});
  });
});

describe('a piece beside the wish', () => {
  it('is stopped when its sides differ by more than allowed beyond doubt', () => {
    const evenness = pieceEvenness(UNEVEN, { seatingMm: 0.004, stepMm: 0.01, placementMm: 0.05 });
    const { curve } = originalCane({ readings: UNEVEN, tubeDiameterMm: 10.4 })!;
    const compared = compareGouge(evenness, curve, STARTING_GOUGE);
    expect(compared.sides).toBe('too different');
    expect(compared.centre!.valueMm).toBeCloseTo(0, 3);
    expect(compared.side1!.valueMm).toBeCloseTo(0.02, 3);
    expect(compared.side2!.valueMm).toBeCloseTo(-0.03, 3);
  });

  it('is doubtful at the limit, and equal enough well inside it', () => {
    const sides = (valueMm: number) =>
      compareGouge({ sideDifference: { valueMm, uMm: 0.005 } }, undefined, STARTING_GOUGE).sides;
    expect(sides(-0.031)).toBe('doubtful');
    expect(sides(0.01)).toBe('equal enough');
    expect(sides(-0.06)).toBe('too different');
  });
});

describe('original cane under a blade', () => {
  const cane = originalCane({ readings: UNEVEN, tubeDiameterMm: 10.4 })!;
  const thickness = (blade: 'A' | 'B', across: number) =>
    cane.thicknessAt({ blade, across, halfWidthMm: 3.4 }).valueMm;

  it('puts side 1 at the left of A and at the right of B', () => {
    expect(arcOf({ blade: 'A', across: -1, halfWidthMm: 3.5 })).toBe(-3.5);
    expect(arcOf({ blade: 'B', across: 1, halfWidthMm: 3.5 })).toBe(-3.5);
    expect(thickness('A', -0.8)).toBeCloseTo(thickness('B', 0.8), 12);
    expect(thickness('A', -0.8)).toBeGreaterThan(thickness('A', 0.8) + 0.02);
  });

  it('is thickest near the middle and says how sure it is', () => {
    expect(thickness('A', 0)).toBeCloseTo(0.59, 3);
    const { uMm } = cane.thicknessAt({ blade: 'A', across: 0, halfWidthMm: 3.4 });
    expect(uMm).toBeGreaterThan(0.002);
    expect(uMm).toBeLessThan(0.01);
  });

  it('is not known from the centre alone', () => {
    expect(originalCane({ readings: [at(15, 0, 59)] })).toBeUndefined();
  });

  it('says when the tube had to be assumed', () => {
    expect(originalCane({ readings: UNEVEN })!.tubeAssumed).toBe(true);
    expect(cane.tubeAssumed).toBe(false);
  });
});

describe('drift of the gouge', () => {
  const pieces = (centres: readonly number[]) =>
    centres.map((hundredths, i) =>
      piece({ number: i + 1, sinceSharpened: i + 1, readings: [at(37, 0, hundredths)] }),
    );

  it('has no limits under eight pieces', () => {
    expect(gougeDrift(pieces([59, 58, 59, 60]), 'centre').chart).toBeUndefined();
  });

  it('orders pieces as they were gouged and finds the trend of a blade that dulls', () => {
    const drift = gougeDrift(
      pieces([59, 58.9, 59.1, 59, 59.1, 59.2, 59.4, 59.6, 59.9, 60.3]).reverse(),
      'centre',
    );
    expect(drift.points.map(({ piece: { number } }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(drift.chart!.signals.at(-1)).toContain('six rising or falling');
    expect(hasMoved(drift)).toBe(true);
    expect(hasMoved(gougeDrift(pieces([59, 58, 59, 58, 59, 58, 59, 58]), 'centre'))).toBe(false);
    expect(hasMoved(gougeDrift(pieces([59]), 'centre'))).toBeUndefined();
  });

  it('is kept apart by machine', () => {
    const [old, unnamed] = byGouger([piece({ gouger: 'old' }), piece({}), piece({ gouger: 'old' })]);
    expect([old!.gouger, old!.pieces.length]).toEqual(['old', 2]);
    expect([unnamed!.gouger, unnamed!.pieces.length]).toEqual(['', 1]);
  });
});

describe('yield of a lot', () => {
  it('counts what was kept, rejected and why, and what became good', () => {
    const lot: Pick<Lot, 'id' | 'code'> = { id: newId(), code: 'Z' };
    const own = (fate: Piece['fate'], reason?: string) =>
      piece({ lotId: lot.id, ...(fate && { fate }), ...(reason && { reason }) });
    const reed = (own: Partial<Reed>): Reed => ({
      kind: 'reed',
      ...stamp(),
      label: `K-${count}`,
      styleId: 'long-scrape',
      state: 'playing',
      tags: [],
      lotId: lot.id,
      ...own,
    });
    const reeds = [
      reed({}),
      reed({ favourite: { passIndex: 0, since: '2026-01-01T10:00:00.000+00:00' } }),
      reed({ lotId: newId() }),
    ];
    const found = lotYield(lot, {
      pieces: [
        own('kept'),
        own('reed'),
        own('rejected', 'warped'),
        own('rejected', 'warped'),
        own('rejected'),
        own(undefined),
        piece({}),
      ],
      reeds,
      trials: [],
    });
    expect(found).toEqual({ pieces: 6, kept: 2, reeds: 2, goodReeds: 1 });
  });
});

describe('shapes', () => {
  const wedge = {
    widths: [
      { fromFoldMm: 0, widthMm: 7 },
      { fromFoldMm: 25, widthMm: 4.5 },
    ],
  };
  const wide = {
    widths: [
      { fromFoldMm: 0, widthMm: 7.1 },
      { fromFoldMm: 10, widthMm: 6.1 },
      { fromFoldMm: 20, widthMm: 5.1 },
    ],
  };

  it('has the area of its trapezium, exactly', () => {
    const { areaMm2, flareMmPerMm } = shapeFigures(wedge);
    expect(areaMm2.value).toBeCloseTo((25 * (7 + 4.5)) / 2, 12);
    expect(flareMmPerMm.value).toBeCloseTo(0.1, 12);
    expect(widthAt(wedge.widths, 12.5)).toBeCloseTo(5.75, 12);
    expect(() => widthAt(wedge.widths, 26)).toThrow('fromFoldMm');
  });

  it('compares over the stretch that both cover', () => {
    const found = compareShapes(wide, wedge);
    expect([found.fromMm, found.toMm]).toEqual([0, 20]);
    expect(found.areaMm2.value).toBeCloseTo(20 * 0.1, 9);
    expect(found.flareMmPerMm.value).toBeCloseTo(0, 12);
    expect(found.most.differenceMm.value).toBeCloseTo(0.1, 12);
    const back = compareShapes(wedge, wide);
    expect(back.areaMm2.value).toBeCloseTo(-found.areaMm2.value, 12);
    expect(back.areaMm2.u).toBeCloseTo(found.areaMm2.u, 12);
  });

  it('has nothing to compare without a common stretch', () => {
    const far = {
      widths: [
        { fromFoldMm: 30, widthMm: 4 },
        { fromFoldMm: 40, widthMm: 4 },
      ],
    };
    expect(() => compareShapes(wedge, far)).toThrow('must share a stretch');
  });

  it('becomes the outline of the blade it is tied as', () => {
    const planform = planformOf(wide, 72.5);
    expect(planform.widths.map(({ fromCorkMm }) => fromCorkMm)).toEqual([52.5, 62.5, 72.5]);
    expect(halfWidthAt(planform, 72.5)).toBeCloseTo(3.55, 12);
    expect(halfWidthAt(planform, 57.5)).toBeCloseTo(2.8, 12);
  });
});

describe('a tied reed', () => {
  const shape = {
    widths: [
      { fromFoldMm: 0, widthMm: 7 },
      { fromFoldMm: 26, widthMm: 4.4 },
    ],
  };

  it('has the geometry of its staple, lengths and shape', () => {
    const found = tieGeometry({ staple: { lengthMm: 47 }, tie: { overallMm: 72.5, threadMm: 46.8 } }, shape);
    expect(found.bladeMm).toBeCloseTo(25.7, 12);
    expect(found.threadOverStapleMm).toBeCloseTo(-0.2, 12);
    expect(found.tipWidthMm).toBe(7);
    expect(found.widthAtThreadMm).toBeCloseTo(4.43, 12);
    expect(found.remarks).toEqual([]);
  });

  it('keeps the outline of its tying, whatever is corrected in its shape later', () => {
    const reed = { tie: { overallMm: 72.5, threadMm: 47.5 }, planform: planformOf(shape, 72.5) };
    const corrected = { widths: [{ fromFoldMm: 0, widthMm: 7.06 }, shape.widths[1]!] };
    expect(tieGeometry(reed, corrected)).toEqual(tieGeometry(reed, shape));
    expect(tieGeometry(reed, corrected).tipWidthMm).toBe(7);
    // A wedge of 2.6 mm over 26 mm: 4.5 mm wide 25 mm from the fold.
    expect(tieGeometry(reed, corrected).widthAtThreadMm).toBeCloseTo(4.5, 12);
    expect(correctedOutline(reed, shape)).toBeUndefined();
    expect(correctedOutline(reed, corrected)).toEqual(planformOf(corrected, 72.5));
    expect(correctedOutline({ tie: reed.tie }, corrected)).toBeUndefined();
    expect(correctedOutline({ planform: reed.planform }, corrected)).toBeUndefined();
  });

  it('remarks on what would spoil it', () => {
    const found = tieGeometry({
      staple: { lengthMm: 46 },
      tie: { overallMm: 72, threadMm: 47, leaks: 'leaks' },
    });
    expect(found.remarks).toHaveLength(2);
    expect(tieGeometry({})).toEqual({ remarks: [] });
  });
});

describe('a mean over pieces', () => {
  const points = (values: readonly number[]) =>
    values.map((valueMm, i) => ({ piece: piece({ number: i + 1 }), valueMm, uMm: 0.003 }));

  it('has the doubt of how far the pieces lie apart, never less than that of the readings', () => {
    // Standard deviation of 0, 0.02, 0.04 is 0.02; over the root of three.
    const apart = meanOfPieces(points([0, 0.02, 0.04]))!;
    expect(apart.valueMm).toBeCloseTo(0.02, 12);
    expect(apart.uMm).toBeCloseTo(0.02 / Math.sqrt(3), 12);
    expect(meanOfPieces(points([0.02, 0.02]))!.uMm).toBeCloseTo(0.003 / Math.SQRT2, 12);
    expect(meanOfPieces(points([0.02]))!.uMm).toBe(0.003);
    expect(meanOfPieces([])).toBeUndefined();
  });
});

describe('noise of a gouge reading', () => {
  const gauge = {
    kind: 'gauge' as const,
    ...stamp(),
    name: 'mine',
    stepMm: 0.001,
    checks: [],
    repeatStudies: [],
  };

  it('is the maker’s own where the gauge was studied, the usual otherwise', () => {
    expect(gougeNoise(undefined)).toEqual(USUAL_GOUGE_NOISE);
    expect(gougeNoise(gauge)).toEqual({ ...USUAL_GOUGE_NOISE, stepMm: 0.001 });
    // Two readings 0.012 apart at each of ten places: a standard deviation of 0.012 / sqrt(2).
    const stations = Array.from({ length: 10 }, () => [0.59, 0.602]);
    const studied = { ...gauge, placementSdMm: 0.1, repeatStudies: [{ takenAt: gauge.createdAt, stations }] };
    const { seatingMm, stepMm, placementMm } = gougeNoise(studied);
    expect(Math.hypot(seatingMm, stepMm / Math.sqrt(12))).toBeCloseTo(0.012 / Math.SQRT2, 4);
    expect(placementMm).toBe(0.1);
  });
});
