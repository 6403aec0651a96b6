import '../../components/map/blade-map.ts';
import '../../components/relief/relief.ts';
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

/** Turns the relief, each frame marked. @returns Time to its first frame, ms, and draw calls of a frame. */
async function orbit(frames: number): Promise<{ drawCalls: number; firstMs: number }> {
  const relief = document.createElement('bench-relief');
  const start = performance.now();
  relief.blades = [blade('A', 61, 31, 0), blade('B', 61, 31, 1)];
  relief.readings = true;
  document.body.prepend(relief);
  while (relief.cost.frames === 0) await frame();
  const firstMs = performance.now() - start;
  const canvas = relief.shadowRoot!.querySelector('canvas')!;
  startMarking();
  for (let k = 0; k < frames; k++) {
    await markWork(() => {
      canvas.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowLeft' }));
      relief.snapshot();
    });
    await frame();
  }
  const { drawCalls } = relief.cost;
  relief.remove();
  return { drawCalls, firstMs };
}

/** What the page offers to the benchmark that drives it. */
export interface BenchViews {
  readonly updateMap: typeof updateMap;
  readonly orbit: typeof orbit;
}

Object.assign(window, { benchViews: { updateMap, orbit } satisfies BenchViews });
