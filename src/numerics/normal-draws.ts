/**
 * Independent standard normal numbers, made in pairs from uniform ones.
 *
 * Source: polar method, Marsaglia & Bray 1964, from memory.
 *
 * @param random Uniform numbers from 0 to 1.
 */
export function normalPairs(random: () => number, count: number): Float64Array {
  const draws = new Float64Array(count);
  for (let i = 0; i < count; i += 2) {
    const [x, y, square] = insideCircle(random);
    const scale = Math.sqrt((-2 * Math.log(square)) / square);
    draws[i] = x * scale;
    if (i + 1 < count) draws[i + 1] = y * scale;
  }
  return draws;
}

function insideCircle(random: () => number): readonly [x: number, y: number, square: number] {
  for (;;) {
    const [x, y] = [2 * random() - 1, 2 * random() - 1];
    const square = x * x + y * y;
    if (square > 0 && square < 1) return [x, y, square];
  }
}
