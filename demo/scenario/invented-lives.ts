import type { GougeReading, Piece } from '../../shared/cane.ts';
import type { Id } from '../../shared/ids.ts';
import type { NewDraft } from '../../src/ledger/drafts.ts';
import { normalPairs } from '../../src/numerics/normal-draws.ts';
import { seededRandom } from '../../src/numerics/seeded-random.ts';
import type { Before } from './invented-surfaces.ts';

const invented = true as const;

/** Chance of its own, so that what is told of more of a library's life changes nothing of what was told before. */
export interface Aside {
  readonly random: () => number;
  readonly normal: () => number;
  readonly at: (daysAgo: number) => string;
  readonly newId: () => Id;
}

export function asideOf(seed: number, at: Aside['at'], makeId: (random: () => number) => Id): Aside {
  const random = seededRandom(seed ^ 0x5eed);
  return { random, normal: () => normalPairs(random, 1)[0]!, at, newId: () => makeId(random) };
}

/** One go with the knife that came before a reed's last one. */
export interface EarlierPass {
  readonly daysBefore: number;
  /** Cane that was still there. */
  readonly before: Before;
  readonly clipMm: number;
  readonly worked: readonly string[];
  readonly words: string;
}

/** Where a knife went, mm from the tip and fractions of the half-width, and about how much it took, mm. */
const WORK = [
  { zone: 'tip', fromTipMm: 1.8, alongMm: 1.2, acrossSd: 0.7, depthMm: 0.022 },
  { zone: 'blend', fromTipMm: 4, alongMm: 1.1, acrossSd: 0.6, depthMm: 0.04 },
  { zone: 'heart', fromTipMm: 7, alongMm: 1.5, acrossSd: 0.35, depthMm: 0.035 },
  { zone: 'windows', fromTipMm: 12, alongMm: 3, acrossSd: 0.2, depthMm: 0.05 },
] as const;
const WORDS = [
  'peeps high, no low octave',
  'crow sharp, wild',
  'stiff in the low notes',
  'one octave, buzzy',
] as const;
const MOST_EARLIER = 3;

/** The passes before the last one of a reed, newest first: each left more cane than the next. */
export function earlierPasses({ random, normal }: Aside): EarlierPass[] {
  const count = 1 + Math.floor(random() * MOST_EARLIER);
  const all: Before[] = [];
  return Array.from({ length: count }, (_, k) => {
    const work = WORK.filter(() => random() < 0.6);
    const took = work.length > 0 ? work : [WORK[1]];
    const removed = took.map(({ fromTipMm, alongMm, acrossSd, depthMm, zone }) => {
      const sides = zone === 'windows' ? [-0.4, 0.4] : [0.1 * normal()];
      const amount = depthMm * Math.exp(0.3 * normal());
      return (y: number, across: number) =>
        sides.reduce(
          (sum, side) =>
            sum +
            amount *
              Math.exp(-0.5 * ((y - fromTipMm) / alongMm) ** 2 - 0.5 * ((across - side) / acrossSd) ** 2),
          0,
        );
    });
    all.push((y, across) => removed.reduce((sum, patch) => sum + patch(y, across), 0));
    const left = [...all];
    return {
      daysBefore: 2 * (k + 1) + Math.floor(random() * 2),
      before: (y, across) => left.reduce((sum, patch) => sum + patch(y, across), 0),
      clipMm: random() < 0.3 ? 0.2 + 0.1 * Math.floor(random() * 3) : 0,
      worked: took.map(({ zone }) => zone),
      words: WORDS[Math.floor(random() * WORDS.length)]!,
    };
  });
}

/** The gouging machine of the invented maker: it drifts until its bed is set anew. */
const GOUGE = {
  centreMm: 0.59,
  sideMm: 0.455,
  arcMm: 4.3,
  driftMm: 0.0009,
  setAnewEvery: 22,
  scatterMm: 0.004,
  limitMm: 0.03,
} as const;

function gougeReadings(sinceSet: number, { normal }: Aside): GougeReading[] {
  const drift = GOUGE.driftMm * sinceSet;
  const at = (alongMm: number, arcMm: number, mm: number): GougeReading => ({
    alongMm,
    arcMm,
    thicknessMm: Math.round((mm + GOUGE.scatterMm * normal()) * 200) / 200,
  });
  return [
    ...[15, 37, 60].map((along) => at(along, 0, GOUGE.centreMm + drift / 4)),
    ...[15, 60].flatMap((along) => [
      at(along, -GOUGE.arcMm, GOUGE.sideMm + drift),
      at(along, GOUGE.arcMm, GOUGE.sideMm - drift),
    ]),
  ];
}

const sideDifference = (readings: readonly GougeReading[]) => {
  const mean = (arcMm: number) => {
    const own = readings.filter((reading) => reading.arcMm === arcMm);
    return own.reduce((sum, { thicknessMm }) => sum + thicknessMm, 0) / own.length;
  };
  return mean(-GOUGE.arcMm) - mean(GOUGE.arcMm);
};

/** The pieces of a lot in the order in which they were gouged, and which piece each of its reeds was made of. */
export function piecesOf(
  lotId: Id,
  reeds: readonly { readonly label: string; readonly daysAgo: number }[],
  aside: Aside,
): { readonly documents: NewDraft[]; readonly pieceIds: ReadonlyMap<string, Id> } {
  const documents: NewDraft[] = [];
  const pieceIds = new Map<string, Id>();
  let number = 0;
  const gouge = (daysAgo: number, wished: Piece['fate'], reason?: string): Id => {
    const id = aside.newId();
    const sinceSet = number % GOUGE.setAnewEvery;
    number += 1;
    const readings = gougeReadings(sinceSet, aside);
    const isUneven = Math.abs(sideDifference(readings)) > GOUGE.limitMm;
    const [fate, why] = isUneven && wished !== 'reed' ? ['rejected' as const, 'one side thick'] : [wished, reason];
    documents.push({
      kind: 'piece',
      id,
      lotId,
      number,
      tubeDiameterMm: Math.round((10.25 + 0.12 * aside.normal()) * 100) / 100,
      gouger: 'the bench gouger',
      sinceSharpened: sinceSet + 1,
      gougedOn: aside.at(daysAgo + 30).slice(0, 10),
      wetness: 'wet',
      readings,
      ...(fate && { fate }),
      ...(why && { reason: why }),
      invented,
    });
    return id;
  };
  for (const { label, daysAgo } of reeds) {
    if (aside.random() < 0.3) gouge(daysAgo, 'rejected', aside.random() < 0.5 ? 'warped' : 'rippled');
    pieceIds.set(label, gouge(daysAgo, 'reed'));
  }
  for (let k = 0; k < 5; k++) gouge(4, k < 2 ? 'shaped' : 'kept');
  return { documents, pieceIds };
}

const WEEKS_OF_AIR = 12;

/** The air of an invented room, most days for twelve weeks: it turns with the heating, and days are missing. */
export function airOfRoom({ random, normal, at }: Aside): NewDraft[] {
  let humidity = 55;
  return Array.from({ length: 7 * WEEKS_OF_AIR }, (_, k) => 7 * WEEKS_OF_AIR - k).flatMap(
    (daysAgo): NewDraft[] => {
      const usual = daysAgo > 35 ? 57 : 44;
      humidity += 0.25 * (usual - humidity) + 3 * normal();
      if (random() < 0.15) return [];
      return [
        {
          kind: 'air',
          at: at(daysAgo),
          place: 'invented room',
          temperatureC: Math.round(2 * (20.5 + 0.8 * normal())) / 2,
          humidityPct: Math.round(Math.min(80, Math.max(25, humidity))),
          elevationM: 200,
          invented,
        },
      ];
    },
  );
}

const KNOWN_MM = [0.1, 0.3, 0.5] as const;

/** The invented gauge with a check a week, one zero that had moved, and a study of its own scatter. */
export function gaugeOfBench({ normal, at }: Aside): NewDraft {
  const checks = Array.from({ length: WEEKS_OF_AIR }, (_, k) => WEEKS_OF_AIR - k).map((week) => ({
    takenAt: at(7 * week),
    zeroMm: Math.round((week === 5 ? 0.02 : 0.003 * normal()) * 100) / 100,
    known: KNOWN_MM.map((nominalMm) => ({
      nominalMm,
      nominalUMm: 0.001,
      shownMm: [0, 1, 2].map(
        () => Math.round((nominalMm * 1.004 + 0.002 + 0.003 * normal()) * 100) / 100,
      ),
    })),
    ...(week === 5 && { note: 'the tongue was not clean' }),
  }));
  const station = (mm: number) =>
    Array.from({ length: 6 }, () => Math.round((mm + 0.005 * normal()) * 100) / 100);
  return {
    kind: 'gauge',
    name: 'invented dial',
    stepMm: 0.01,
    ballDiameterMm: 2,
    checks,
    repeatStudies: [{ takenAt: at(60), stations: [0.12, 0.2, 0.32, 0.45, 0.55].map(station) }],
    invented,
  };
}
