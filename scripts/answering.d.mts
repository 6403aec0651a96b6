/** Where a bench says that it is one. */
export const IDENTITY_PATH: string;
/** Who answers at a port of this machine; undefined where nobody does. */
export function whoAnswers(
  port: number,
): Promise<
  | undefined
  | { readonly bench: true; readonly version: string }
  | { readonly bench: false; readonly name: string | undefined }
>;
