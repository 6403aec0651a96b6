const HANDS_MM = [0.05, 0.15, 0.25];

/**
 * The cells of a study, each family, extent, hand and gauge, with seeds of their own one after the other.
 *
 * @param {{families: string, extents: string}} of Names with commas between them.
 * @param {number} first First seed.
 * @param {(gauge: string) => number} reedsOf Reeds of a cell.
 */
export function cellsOf({ families, extents }, first, reedsOf) {
  let seed = first;
  return families.split(',').flatMap((family) =>
    extents.split(',').flatMap((extent) =>
      HANDS_MM.flatMap((handMm) =>
        ['dial', 'fine'].map((gauge) => {
          const count = reedsOf(gauge);
          const cell = { settings: { family, extent, handMm, gauge }, seed, count };
          seed += count;
          return cell;
        }),
      ),
    ),
  );
}

/** The last seed of cells. */
export const lastSeed = (cells) => cells.at(-1).seed + cells.at(-1).count - 1;
