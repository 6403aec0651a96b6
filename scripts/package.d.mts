/** The folder of the built package. */
export const PACKAGE: string;
export function buildPackage(): Promise<void>;
