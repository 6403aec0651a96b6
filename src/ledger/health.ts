/** The part of the browser's storage manager that is used. */
export type StorageManagerLike = Pick<StorageManager, 'estimate' | 'persist' | 'persisted'>;

/** How the keeping of the library stands. */
export interface Health {
  /** Whether the browser has promised not to clear the library away by itself; absent when it does not say. */
  readonly persisted?: boolean;
  readonly usedBytes?: number;
  /** What the browser would let the page use at most. */
  readonly quotaBytes?: number;
  readonly room: 'enough' | 'little' | 'unknown';
  /** False when this window can only read. */
  readonly writable: boolean;
  /** What "kept" promises, and what not. */
  readonly durability: string;
}

/** Below either of these the maker is warned. Common practice, no source. */
const LITTLE_BYTES = 20e6;
const LITTLE_SHARE = 0.1;

export const DURABILITY =
  'A change is shown as kept only when its transaction has been written through to the disk, where the browser offers that. It then survives a closed window, a crash of the page or of the browser, and a killed process. No program can promise as much for a power cut or a broken disk: for that there is the backup.';

function roomIn(usedBytes: number | undefined, quotaBytes: number | undefined): Health['room'] {
  if (usedBytes === undefined || quotaBytes === undefined) return 'unknown';
  const left = quotaBytes - usedBytes;
  return left < Math.max(LITTLE_BYTES, LITTLE_SHARE * quotaBytes) ? 'little' : 'enough';
}

export async function readHealth(
  storage: StorageManagerLike | undefined,
  writable: boolean,
): Promise<Health> {
  const persisted = await storage?.persisted();
  const { usage, quota } = (await storage?.estimate()) ?? {};
  return {
    ...(persisted !== undefined && { persisted }),
    ...(usage !== undefined && { usedBytes: usage }),
    ...(quota !== undefined && { quotaBytes: quota }),
    room: roomIn(usage, quota),
    writable,
    durability: DURABILITY,
  };
}
