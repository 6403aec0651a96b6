/** A point or direction, mm. */
export type Vec3 = readonly [x: number, y: number, z: number];
