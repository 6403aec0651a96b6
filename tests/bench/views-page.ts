import '../../components/map/blade-map.ts';
import '../../components/relief/relief.ts';
import type { Relief } from '../../components/relief/relief.ts';
import type { ReliefBlade } from '../../components/relief/relief-data.ts';
import { markWork, startMarking } from './marks.ts';

const LENGTH_MM = 23.5;

/** An invented blade on a grid of this size, read whole, the readings of a full map on it. */
function blade(name: 'A' | 'B', along: number, across: number, phase: number): ReliefBlade {
  const ysMm = Array.from({ length: along }, (_, j) => (LENGTH_MM * j) / (along - 1));
  const us = Array.from({ length: across }, (_, i) => -1 + (2 * i) / (across - 1));
  const thicknessMm = (y: number, u: number) =>
    0.06 + 0.5 * (1 - Math.exp(-y / 5)) - 0.08 * u * u + 0.02 * Math.cos(4 * u + phase) * Math.sin(y / 2);
  const marks = ysMm
    .filter((_, j) => j % 9 === 4)
    .flatMap((fromTipMm) =>
      [-0.8, -0.4, 0, 0.4, 0.8].map((u) => ({
        fromTipMm,
        across: u,
        valueMm: thicknessMm(fromTipMm, u),
      })),
    );
  return {
    blade: name,
    bladeLengthMm: LENGTH_MM,
    ysMm,
    us,
    halfWidthMm: ysMm.map((y) => 3.5 - 0.05 * y),
    valuesMm: ysMm.flatMap((y) => us.map((u) => thicknessMm(y, u))),
    zones: [],
    marks,
  };
}

const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));

/** Gives a map other data again and again, each time marked in the browser's trace. */
async function updateMap(updates: number): Promise<void> {
  const map = document.createElement('bench-blade-map');
  document.body.append(map);
  const grids = [0, 1].map((phase) => blade('A', 95, 41, phase));
  startMarking();
  for (let k = 0; k < updates; k++) {
    await markWork(async () => {
      map.data = grids[k % 2];
      await map.updateComplete;
    });
    await frame();
  }
  map.remove();
}

/** A blade with everything on: floor, cane as gouged, and what was taken off. */
function laden(name: 'A' | 'B', phase: number): ReliefBlade {
  const bare = blade(name, 61, 31, phase);
  const shifted = (mm: number) => Array.from(bare.valuesMm, (value) => value + mm);
  const { ysMm, us, halfWidthMm, marks } = bare;
  const measurable = Array.from(ysMm).flatMap((y) =>
    Array.from(us, (u) => (Math.abs(u) > 0.2 && y > 4 && y < 16 ? 1 : 0)),
  );
  const difference = { ysMm, us, halfWidthMm, valuesMm: shifted(-0.1), measurable, marks };
  return { ...bare, floorMm: shifted(-0.04), originalMm: shifted(0.1), print: { is: 'lifted', difference } };
}

let shown: Relief | undefined;

/** Shows both blades with everything on, the time to their first frame marked. */
async function showRelief(): Promise<void> {
  shown = document.createElement('bench-relief');
  shown.blades = [laden('A', 0), laden('B', 1)];
  shown.readings = true;
  startMarking();
  await markWork(async () => {
    document.body.prepend(shown!);
    while (shown!.cost.frames === 0) await frame();
  });
}

/** Turns it, each frame marked. @returns Draw calls of a frame. */
async function orbit(frames: number): Promise<number> {
  const relief = shown!;
  const canvas = relief.shadowRoot!.querySelector('canvas')!;
  startMarking();
  for (let k = 0; k < frames; k++) {
    await markWork(() => {
      canvas.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowLeft' }));
      relief.snapshot();
    });
    await frame();
  }
  return relief.cost.drawCalls;
}

/** What the page offers to the benchmark that drives it. */
export interface BenchViews {
  readonly updateMap: typeof updateMap;
  readonly showRelief: typeof showRelief;
  readonly orbit: typeof orbit;
}

Object.assign(window, { benchViews: { updateMap, showRelief, orbit } satisfies BenchViews });
