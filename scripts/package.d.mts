/** The folder of the built package. */
export const PACKAGE: string;
