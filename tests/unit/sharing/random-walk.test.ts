import { expect, it } from 'vitest';
import { inOrder, type Holdings } from '../../../src/ledger/merge.ts';
import { carriedOf, isRefused, unwrap, type Carried } from '../../../src/sharing/carried.ts';
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

/** A case on a server, and three devices, each cut off from it now and then. */
class Walk {
  readonly server = new Map<string, Carried>();
  readonly devices: [Holdings, Holdings, Holdings] = [EMPTY, EMPTY, EMPTY];
  /** All that was ever accepted anywhere. */
  accepted: Holdings = EMPTY;
  private readonly writes = [0, 0, 0];
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
      what < 0.3
        ? { ...mine, acts: [...mine.acts, actOf(device, write, text)] }
        : what < 0.5
          ? settled(mine, which, by, write)
          : written(mine, which, by, write, text);
    this.accepted = mergeHoldings(this.accepted, this.devices[device]!);
  }

  /** @param isWhole Whether all of it arrives. */
  async send(device: number, isWhole: boolean): Promise<void> {
    const all = await carriedOf(this.devices[device]!, `device ${device}`);
    for (const one of isWhole ? all : onTheWay(all, this.chance))
      if (!this.server.has(one._id)) this.server.set(one._id, one);
  }

  async receive(device: number, isWhole: boolean): Promise<void> {
    const all = [...this.server.values()];
    // As it comes over a network: as text.
    const came = (isWhole ? all : onTheWay(all, this.chance)).map((one): unknown =>
      JSON.parse(JSON.stringify(one)),
    );
    const looked = await Promise.all(came.map(unwrap));
    const sound = looked.flatMap((one) => (isRefused(one) ? [] : [one]));
    expect(sound).toHaveLength(came.length);
    this.devices[device] = mergeHoldings(this.devices[device]!, incomingOf(sound));
  }

  async go(): Promise<void> {
    for (let i = 0; i < MOVES; i++) {
      const device = below(this.chance, 3);
      const what = this.chance();
      if (what < 0.6) this.change(device);
      else if (what < 0.8) await this.send(device, false);
      else await this.receive(device, false);
    }
    for (const device of [0, 1, 2]) await this.send(device, true);
    for (const device of [0, 1, 2]) await this.receive(device, true);
  }
}

it(
  `is one library on three devices at the end of ${HISTORIES} histories, and nothing that was accepted is lost`,
  async () => {
    for (let seed = 1; seed <= HISTORIES; seed++) {
      const walk = new Walk(seed);
      await walk.go();
      const [one, ...others] = walk.devices.map(inOrder);
      for (const other of others) expect(other, `history ${seed}`).toEqual(one);
      expect(one, `history ${seed}`).toEqual(inOrder(walk.accepted));
    }
  },
  60_000 + HISTORIES * 2000,
);
