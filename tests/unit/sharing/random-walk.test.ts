import { expect, it } from 'vitest';
import { inOrder, type Holdings } from '../../../src/ledger/merge.ts';
import { carriedOf, heldIn, isRefused, unwrap, type Carried } from '../../../src/sharing/carried.ts';
import { SentMemory } from '../../../src/sharing/sent.ts';
import { incomingOf } from '../../../src/sharing/take-in.ts';
import { seededRandom } from '../../seeded-random.ts';
import { actOf, EMPTY, idOf, mergeHoldings, settled, written } from '../ledger/random-libraries.ts';

/** How many histories; npm run study:sharing has 2,000. */
const HISTORIES = Number(process.env['HISTORIES'] ?? 12);
const MOVES = 40;

type Chance = () => number;
const below = (chance: Chance, count: number) => Math.floor(chance() * count);
const shuffled = <T>(items: readonly T[], chance: Chance) =>
  items
    .map((item) => ({ item, at: chance() }))
    .sort((a, b) => a.at - b.at)
    .map(({ item }) => item);

/** What arrives of what is sent: some of it lost, some twice, in any order. */
const onTheWay = <T>(items: readonly T[], chance: Chance): T[] =>
  shuffled(
    items.flatMap((item) => {
      const fate = chance();
      return fate < 0.3 ? [] : fate < 0.5 ? [item, item] : [item];
    }),
    chance,
  );

/** What comes, as it comes over a network: as text. */
async function read(documents: readonly Carried[]): Promise<Holdings> {
  const looked = await Promise.all(documents.map((one) => unwrap(JSON.parse(JSON.stringify(one)))));
  expect(looked.filter(isRefused)).toEqual([]);
  return incomingOf(looked.flatMap((one) => (isRefused(one) ? [] : [one])));
}

/** A case on a server, and three devices, each cut off from it now and then. */
class Walk {
  readonly server = new Map<string, Carried>();
  readonly devices: [Holdings, Holdings, Holdings] = [EMPTY, EMPTY, EMPTY];
  /** All that was ever accepted anywhere. */
  accepted: Holdings = EMPTY;
  /** All that ever came to the server. */
  arrived: Holdings = EMPTY;
  private readonly writes = [0, 0, 0];
  private readonly memories = [new SentMemory(), new SentMemory(), new SentMemory()];
  /** Documents that were taken out since another held more. */
  takenOut = 0;
  private readonly chance: Chance;

  constructor(seed: number) {
    this.chance = seededRandom(seed);
  }

  private change(device: number): void {
    const mine = this.devices[device]!;
    const write = (this.writes[device] = this.writes[device]! + 1);
    const what = this.chance();
    const which = below(this.chance, 4);
    const by = idOf(900 + device);
    const text = `device ${device}, write ${write}`;
    this.devices[device] =
      what < 0.4
        ? { ...mine, acts: [...mine.acts, actOf(device, write, text)] }
        : what < 0.55
          ? settled(mine, which, by, write)
          : written(mine, which, by, write, text);
    this.accepted = mergeHoldings(this.accepted, this.devices[device]!);
  }

  /** Some acts of a log by themselves, as they are sent while a round is read. */
  async sendActs(device: number): Promise<void> {
    const acts = shuffled(this.devices[device]!.acts, this.chance);
    await this.put(device, { documents: [], acts: acts.slice(0, 1 + below(this.chance, 5)) }, false);
  }

  /** @param isWhole Whether all of it arrives. */
  async put(device: number, holdings: Holdings, isWhole: boolean): Promise<void> {
    const all = await carriedOf(holdings, `device ${device}`);
    const memory = this.memories[device]!;
    for (const one of isWhole ? all : onTheWay(all, this.chance)) {
      const rev = this.server.has(one._id) ? undefined : '1-a';
      this.server.set(one._id, one);
      this.arrived = mergeHoldings(this.arrived, await read([one]));
      const held = heldIn(one);
      if (!held) continue;
      const out = memory.supersededBy([held]);
      // Cut off here, it takes out nothing, and does so later where it meets a document that holds more.
      const isCut = !isWhole && this.chance() < 0.2;
      if (!isCut) for (const { id } of out) this.takeOut(id);
      await memory.change(rev ? [{ id: one._id, rev, held }] : [], isCut ? [] : out);
    }
  }

  private takeOut(id: string): void {
    if (this.server.delete(id)) this.takenOut += 1;
  }

  async receive(device: number, isWhole: boolean): Promise<void> {
    const all = [...this.server.values()];
    const came = await read(isWhole ? all : onTheWay(all, this.chance));
    this.devices[device] = mergeHoldings(this.devices[device]!, came);
  }

  /** All of it as it comes to a device that has nothing. */
  private async newcomer(): Promise<Holdings> {
    return inOrder(mergeHoldings(EMPTY, await read([...this.server.values()])));
  }

  async go(): Promise<void> {
    for (let i = 0; i < MOVES; i++) {
      const device = below(this.chance, 3);
      const what = this.chance();
      if (what < 0.6) this.change(device);
      else if (what < 0.76) await this.sendActs(device);
      else if (what < 0.8) await this.put(device, this.devices[device]!, false);
      else await this.receive(device, false);
    }
    // Whatever was taken out, the server has all that ever came to it.
    expect(await this.newcomer()).toEqual(inOrder(this.arrived));
    for (const device of [0, 1, 2]) await this.put(device, this.devices[device]!, true);
    for (const device of [0, 1, 2]) await this.receive(device, true);
  }
}

it(
  `is one library on three devices at the end of ${HISTORIES} histories, and nothing that was accepted is lost`,
  async () => {
    let takenOut = 0;
    for (let seed = 1; seed <= HISTORIES; seed++) {
      const walk = new Walk(seed);
      await walk.go();
      takenOut += walk.takenOut;
      const [one, ...others] = walk.devices.map(inOrder);
      for (const other of others) expect(other, `history ${seed}`).toEqual(one);
      expect(one, `history ${seed}`).toEqual(inOrder(walk.accepted));
    }
    expect(takenOut).toBeGreaterThan(HISTORIES);
  },
  60_000 + HISTORIES * 2000,
);
