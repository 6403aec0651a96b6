declare module 'gltf-validator' {
  /** The part of a report that the tests look at. */
  export function validateBytes(bytes: Uint8Array): Promise<{
    readonly issues: { readonly messages: readonly { readonly code: string; readonly message: string }[] };
    readonly info: { readonly version: string; readonly totalTriangleCount: number };
  }>;
}
