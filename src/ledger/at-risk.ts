import type { Ledger } from './ledger-face.ts';
import { lastCopy } from './outside-copies.ts';

/** What would go if the browser forgot the library now. */
export interface AtRisk {
  /** Readings of the maker's own that no copy outside the browser holds. */
  readonly readings: number;
  /** The browser has not promised to keep what the page holds, or has no second place for it. */
  readonly mayForget: boolean;
  /** Whether to say so now. */
  readonly isDue: boolean;
}

/**
 * So many readings more, and the maker is reminded again: some three passes where the browser may forget, some fifteen
 * where it has promised not to. Where it may forget, the first reading is told of. Common practice, no source.
 */
const STEP = { mayForget: 200, promised: 1000 };

const PUT_OFF = 'readings put off';

/** Until how many readings the maker wanted to hear nothing more, since which copy. */
interface PutOff {
  readonly readings: number;
  readonly since: string;
}

/** Readings of passes that have changed since the last copy, and of rounds that are not finished. */
async function countSince(ledger: Ledger, since: number): Promise<number> {
  const { live, passesOf } = await ledger.read();
  const isOwn = (one: { readonly invented?: true | undefined }) => !one.invented;
  const alive = live.reed.filter((reed) => isOwn(reed) && reed.state !== 'retired');
  const passes = alive
    .flatMap(({ id }) => passesOf(id))
    .filter((pass) => isOwn(pass) && Date.parse(pass.updatedAt) > since);
  const open = live.round.filter((round) => isOwn(round) && round.closedAs === undefined);
  const logs = await Promise.all(open.map(({ id }) => ledger.actsOf(id)));
  const typed = logs.flat().filter(({ act, at }) => act === 'taken' && Date.parse(at) > since);
  return passes.reduce((sum, { readingCount }) => sum + readingCount, typed.length);
}

const putOffOf = async (ledger: Ledger, since: string): Promise<number> => {
  const put = (await ledger.recall(PUT_OFF)) as PutOff | undefined;
  return put?.since === since ? put.readings : 0;
};

/** @param hasSecondPlace Whether the library has its second copy in this browser. */
export async function readAtRisk(ledger: Ledger, hasSecondPlace: boolean): Promise<AtRisk> {
  const last = (await lastCopy(ledger))?.at ?? '';
  const readings = await countSince(ledger, last === '' ? -Infinity : Date.parse(last));
  const mayForget = !hasSecondPlace || (await ledger.health()).persisted !== true;
  const put = await putOffOf(ledger, last);
  const step = mayForget ? STEP.mayForget : STEP.promised;
  const least = mayForget && put === 0 ? 1 : put + step;
  return { readings, mayForget, isDue: readings >= least };
}

/** The maker has heard of these readings, and wants to hear of more only. */
export async function putOffRisk(ledger: Ledger, { readings }: AtRisk): Promise<void> {
  const since = (await lastCopy(ledger))?.at ?? '';
  await ledger.remember(PUT_OFF, { readings, since } satisfies PutOff);
}
