const SIZE = 100;
const [LEFT, RIGHT] = [Math.sin, Math.cos].map((f) =>
  Float64Array.from({ length: SIZE * SIZE }, (_, k) => f(k)),
) as [Float64Array, Float64Array];

const product = new Float64Array(SIZE * SIZE);

/** The work that others are measured against: a product of two matrices. Leaves no rubbish behind for others to collect. */
export function reference(): void {
  product.fill(0);
  for (let i = 0; i < SIZE; i++)
    for (let k = 0; k < SIZE; k++) {
      const share = LEFT[i * SIZE + k]!;
      for (let j = 0; j < SIZE; j++) product[i * SIZE + j]! += share * RIGHT[k * SIZE + j]!;
    }
}

/** Calls after which an engine runs the reference as fast as it will. */
export function warmReferenceUp(): void {
  for (let at = 0; at < 20; at++) reference();
}
