/** A row of what has changed in a shared case. Nothing in it is trusted. */
export interface CarriedRow {
  readonly id: string;
  readonly rev: string;
  /** Absent where it was removed there: what is here stays. */
  readonly document?: unknown;
  /** Revisions of the same name that lost against this one. */
  readonly conflicts: readonly string[];
}

export interface CarriedRows {
  readonly rows: readonly CarriedRow[];
  /** Where to go on from. */
  readonly last: string;
  /** How many more there are, where it says so. */
  readonly pending: number;
}

/** What became of one document that was sent. */
export interface Sent {
  readonly id: string;
  readonly is: 'there' | 'refused';
  /** Of what was not there before. */
  readonly rev?: string;
  /** The server's own words. */
  readonly why?: string;
}

/** A document ready to be sent, with the bytes beside it where it is of a picture. */
export interface Sending {
  readonly _id: string;
  readonly bytes?: Uint8Array;
}

/** What a client of the replication protocol does for a shared case. Each throws a `CarrierError`. */
export interface Carrier {
  /** Looks whether the case is there, and this name may read it. */
  readonly greet: () => Promise<void>;
  readonly changes: (since: string, limit: number, signal: AbortSignal) => Promise<CarriedRows>;
  /** As `changes`, once there is something: one request that is held meanwhile. */
  readonly hold: (since: string, signal: AbortSignal) => Promise<CarriedRows>;
  /** Whether something of this name was ever there, taken out again or not. */
  readonly remembers: (id: string) => Promise<boolean>;
  /** Which of some names are not there. */
  readonly missing: (ids: readonly string[]) => Promise<ReadonlySet<string>>;
  readonly send: (documents: readonly Sending[]) => Promise<readonly Sent[]>;
  /** The documents of lost revisions. */
  readonly branches: (
    lost: readonly { readonly id: string; readonly rev: string }[],
  ) => Promise<readonly unknown[]>;
  /** Takes out revisions: lost ones, when what they say was taken in, and what another document holds. */
  readonly close: (lost: readonly { readonly id: string; readonly rev: string }[]) => Promise<void>;
  /** One document as it stands. */
  readonly read: (id: string) => Promise<unknown>;
  readonly picture: (id: string) => Promise<Uint8Array>;
  /** Whether this device has sent something, by the server's own memory. */
  readonly mark: (device: string) => Promise<boolean>;
  readonly setMark: (device: string) => Promise<void>;
}

/**
 * What can be wrong between a device and a shared case. Away: no network, or nobody answers; a page is not told more.
 * Conflict: somebody else has set it meanwhile. Hostile: it sends without end, or what it sends is no case.
 */
export type CarrierTrouble =
  | 'away'
  | 'busy'
  | 'name'
  | 'passphrase'
  | 'forbidden'
  | 'address'
  | 'other'
  | 'version'
  | 'full'
  | 'conflict'
  | 'too much'
  | 'hostile';

export class CarrierError extends Error {
  override readonly name = 'CarrierError';
  readonly trouble: CarrierTrouble;

  constructor(trouble: CarrierTrouble, message = '', options?: ErrorOptions) {
    super(message || trouble, options);
    this.trouble = trouble;
  }
}

/** By itself it may be better soon. */
export const isPassing = (error: unknown): boolean =>
  error instanceof CarrierError && (error.trouble === 'away' || error.trouble === 'busy');
