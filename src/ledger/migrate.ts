import { FORMAT_VERSION } from '../../shared/stamp.ts';

type Raw = Readonly<Record<string, unknown>>;

/**
 * Format 0 counted a document's writes in `rev` by the one device `deviceId`, and marked a deleted one with
 * `deleted: true`.
 */
function from0({ rev, deviceId, deleted, ...rest }: Raw): Raw {
  return {
    ...rest,
    versions: { [String(deviceId)]: rev },
    ...(deleted === true ? { deletedAt: rest['updatedAt'] } : {}),
  };
}

/** `STEPS[n]` brings a document from format n to n + 1. Steps are only ever added. */
const STEPS: readonly ((document: Raw) => Raw)[] = [from0];

/**
 * Brings a stored document to the present format. What is not a document of an earlier format comes back as it is,
 * for the schema to judge.
 */
export function migrateDocument(document: unknown): unknown {
  if (typeof document !== 'object' || document === null || Array.isArray(document)) return document;
  let migrated = document as Raw;
  for (;;) {
    const format = migrated['formatVersion'];
    const step = typeof format === 'number' && format < FORMAT_VERSION ? STEPS[format] : undefined;
    if (step === undefined) return migrated;
    migrated = { ...step(migrated), formatVersion: Number(format) + 1 };
  }
}

/** Brings a whole library file to the present format, document by document. */
export function migrateLibrary(data: unknown): unknown {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) return data;
  const { formatVersion, documents } = data as Raw;
  if (typeof formatVersion !== 'number' || formatVersion >= FORMAT_VERSION || !Array.isArray(documents)) {
    return data;
  }
  return { ...data, formatVersion: FORMAT_VERSION, documents: documents.map(migrateDocument) };
}
