import '../../components/map/blade-map.ts';
import '../../components/relief/relief.ts';
import type { ReliefBlade } from '../../components/relief/relief-data.ts';

const LENGTH_MM = 23.5;

/** An invented blade on a grid of this size, read whole, the readings of a full map on it. */
function blade(name: 'A' | 'B', along: number, across: number, phase: number): ReliefBlade {
  const ysMm = Array.from({ length: along }, (_, j) => (LENGTH_MM * j) / (along - 1));
  const us = Array.from({ length: across }, (_, i) => -1 + (2 * i) / (across - 1));
  const thicknessMm = (y: number, u: number) =>
    0.06 + 0.5 * (1 - Math.exp(-y / 5)) - 0.08 * u * u + 0.02 * Math.cos(4 * u + phase) * Math.sin(y / 2);
  const pins = ysMm
    .filter((_, j) => j % 9 === 4)
    .flatMap((fromTipMm) =>
      [-0.8, -0.4, 0, 0.4, 0.8].map((u) => ({
        fromTipMm,
        across: u,
        thicknessMm: thicknessMm(fromTipMm, u),
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
    pins,
  };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));

/** Mean script time of giving a map other data, ms. */
async function mapUpdateMs(updates: number): Promise<number> {
  const map = document.createElement('bench-blade-map');
  document.body.append(map);
  const grids = [0, 1].map((phase) => {
    const given = blade('A', 95, 41, phase);
    return { ...given, marks: given.pins.map((pin) => ({ ...pin, valueMm: pin.thicknessMm })) };
  });
  const times: number[] = [];
  for (let k = 0; k < updates + 3; k++) {
    const start = performance.now();
    map.data = grids[k % 2];
    await map.updateComplete;
    times.push(performance.now() - start);
    await frame();
  }
  map.remove();
  return mean(times.slice(3));
}

/** Mean script time of one frame while the relief is turned, ms, and the draw calls of a frame. */
async function orbit(frames: number): Promise<{ scriptMs: number; drawCalls: number; firstMs: number }> {
  const relief = document.createElement('bench-relief');
  const start = performance.now();
  relief.blades = [blade('A', 120, 60, 0), blade('B', 120, 60, 1)];
  document.body.prepend(relief);
  while (relief.cost.frames === 0) await frame();
  const firstMs = performance.now() - start;
  const turn = [...relief.shadowRoot!.querySelectorAll('button')].find(
    (button) => button.getAttribute('aria-label') === 'turn left',
  )!;
  const times: number[] = [];
  for (let k = 0; k < frames; k++) {
    const before = performance.now();
    turn.click();
    relief.snapshot();
    times.push(performance.now() - before);
    await frame();
  }
  const { drawCalls } = relief.cost;
  relief.remove();
  return { scriptMs: mean(times.slice(3)), drawCalls, firstMs };
}

/** What the page offers to the benchmark that drives it. */
export interface BenchViews {
  readonly mapUpdateMs: typeof mapUpdateMs;
  readonly orbit: typeof orbit;
}

Object.assign(window, { benchViews: { mapUpdateMs, orbit } satisfies BenchViews });
