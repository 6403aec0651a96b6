/**
 * Moves positions as little as it can (least squares) so that neighbours keep a distance. Pool adjacent violators on the
 * positions less their least offsets.
 *
 * @param wanted Rising positions.
 * @param gap Least distance between neighbours.
 * @param least No position goes below this.
 * @returns As many positions, in the same order.
 */
export function spread(wanted: readonly number[], gap: number, least = -Infinity): number[] {
  const pools: { sum: number; count: number }[] = [];
  const mean = ({ sum, count }: { sum: number; count: number }) => sum / count;
  wanted.forEach((position, i) => {
    pools.push({ sum: position - i * gap, count: 1 });
    while (pools.length > 1 && mean(pools.at(-2)!) > mean(pools.at(-1)!)) {
      const { sum, count } = pools.pop()!;
      const before = pools.at(-1)!;
      before.sum += sum;
      before.count += count;
    }
  });
  return pools
    .flatMap((pool) => Array.from({ length: pool.count }, () => Math.max(mean(pool), least)))
    .map((position, i) => position + i * gap);
}
