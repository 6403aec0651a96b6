interface Document {
  readonly _id: string;
  readonly [field: string]: unknown;
}
/** Whether a document may be written to a shared case, by the contract of CouchDB's validation functions. */
export function validateCarried(
  newDoc: Document,
  oldDoc: Document | undefined,
  userCtx: { readonly name: string | null; readonly roles: readonly string[] },
  secObj: Readonly<Record<string, unknown>>,
): void;
