/** The part of the client that is used. What comes from a server is not known to be anything. */
declare module 'pouchdb-core' {
  interface ChangesFeed extends Promise<unknown> {
    on(event: 'change', listener: (row: unknown, pending: number | null, last: unknown) => void): this;
    cancel(): void;
  }
  export default class PouchDB {
    constructor(
      name: string,
      options: {
        readonly adapter: 'http';
        readonly skip_setup: true;
        readonly auth: { readonly username: string; readonly password: string };
        readonly fetch: (url: string, options: RequestInit) => Promise<Response>;
      },
    );
    static plugin(plugin: unknown): void;
    info(): Promise<unknown>;
    changes(options: Readonly<Record<string, unknown>>): ChangesFeed;
    allDocs(options: { readonly keys: readonly string[] }): Promise<unknown>;
    bulkDocs(documents: readonly unknown[]): Promise<readonly unknown[]>;
    get(id: string, options?: { readonly rev: string }): Promise<unknown>;
    put(document: unknown): Promise<unknown>;
    getAttachment(id: string, name: string): Promise<Blob | Uint8Array>;
  }
}
declare module 'pouchdb-adapter-http';
