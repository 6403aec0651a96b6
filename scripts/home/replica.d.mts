interface Document {
  readonly _id: string;
  readonly _rev?: string;
  readonly [field: string]: unknown;
}
/** A database of a shared case, on disk where it has a path. */
export class Replica {
  constructor(path?: string);
  readonly sequence: number;
  readonly count: number;
  read(id: string, rev?: string): Document | undefined;
  leavesOf(id: string): readonly { readonly rev: string; readonly deleted: boolean }[];
  write(
    documents: readonly Document[],
    check: (doc: Document, old: Document | undefined) => void,
    newEdits?: boolean,
  ): { readonly ok?: true; readonly id: string; readonly error?: string; readonly reason?: string }[];
  changes(asked: { readonly since: number; readonly docs?: boolean }): {
    readonly results: readonly { readonly id: string; readonly doc?: Document }[];
  };
  close(): void;
}
