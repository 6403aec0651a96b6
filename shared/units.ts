/** Units a thickness is shown and typed in. Inside, it is always millimetres. */
export const THICKNESS_UNITS = ['hundredths', 'mm', 'thou'] as const;
export type ThicknessUnit = (typeof THICKNESS_UNITS)[number];

/** Exact by definition: one inch is 25.4 mm. Source: international yard and pound agreement, 1959, from memory. */
const MM_PER_INCH = 25.4;

/** Millimetres in one of each unit. */
export const MM_PER: Readonly<Record<ThicknessUnit, number>> = {
  hundredths: 0.01,
  mm: 1,
  thou: MM_PER_INCH / 1000,
};

/** Sanity bounds that catch a slipped unit, not a bad blade. Common practice, no source. */
export const MAX_THICKNESS_MM = 2;
export const MAX_FROM_TIP_MM = 60;
