const FIRST_STEP = 0.5;
const LAST_STEP = 0.05;
/** A gain too small to be evidence of anything. */
const LEAST_GAIN = 0.01;

interface Place {
  readonly x: Float64Array;
  readonly value: number;
}

/**
 * A place from which no step of 0.1 along an axis leads higher, found without slopes.
 *
 * Source: pattern search of Hooke & Jeeves 1961, from memory.
 *
 * @param score To be climbed; its axes are scaled alike.
 * @param bound Every coordinate stays within -bound to bound.
 */
export function climb(score: (x: Float64Array) => number, start: Float64Array, bound = Infinity): Place {
  let here: Place = { x: start, value: score(start) };
  for (let step = FIRST_STEP; step > LAST_STEP;) {
    let next = explore(score, here, step, bound);
    if (!(next.value > here.value + LEAST_GAIN)) {
      step /= 2;
      continue;
    }
    while (next.value > here.value + LEAST_GAIN) {
      const from = here.x;
      const leap = next.x.map((xi, i) => Math.max(-bound, Math.min(bound, 2 * xi - from[i]!)));
      here = next;
      next = explore(score, { x: leap, value: score(leap) }, step, bound);
    }
  }
  return here;
}

/** The best of single steps along each axis in turn. */
function explore(score: (x: Float64Array) => number, from: Place, step: number, bound: number): Place {
  let here = from;
  for (let i = 0; i < from.x.length; i++)
    for (const direction of [step, -step]) {
      const x = here.x.slice();
      x[i]! += direction;
      if (Math.abs(x[i]!) > bound) continue;
      const value = score(x);
      if (value <= here.value) continue;
      here = { x, value };
      break;
    }
  return here;
}
