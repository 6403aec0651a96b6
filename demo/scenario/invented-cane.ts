import type { GougeReading, Piece } from '../../shared/cane.ts';
import type { Id } from '../../shared/ids.ts';
import type { NewDraft } from '../../src/ledger/drafts.ts';

const invented = true as const;

type LotDraft = Extract<NewDraft, { kind: 'lot' }>;

/** What is told of the invented lots. */
const LOTS: Readonly<Record<string, Omit<LotDraft, 'kind' | 'code' | 'id'>>> = {
  K: {
    source: 'invented grower, south slope',
    pieces: 60,
    diameterMinMm: 10,
    diameterMaxMm: 10.5,
    colour: 'gold, even',
    grain: 4,
    bark: 4,
    straightness: 5,
    hardness: { value: 4, unit: 'fingernail, 1 to 5' },
  },
  M: {
    source: 'invented grower, river field',
    pieces: 80,
    diameterMinMm: 10,
    diameterMaxMm: 10.5,
    colour: 'pale, some green',
    grain: 3,
    bark: 3,
    straightness: 3,
  },
  S: { source: 'invented grower, south slope', pieces: 40, diameterMinMm: 10.5, diameterMaxMm: 11, grain: 4 },
};

/** A piece of an invented lot: centre and both sides in hundredths, and what became of it. */
interface InventedPiece {
  readonly number: number;
  readonly gouge: readonly [side1: number, centre: number, side2: number];
  readonly fate: NonNullable<Piece['fate']>;
  readonly reason?: string;
  /** Label of the reed it became. */
  readonly reed?: string;
}

const PIECES: Readonly<Record<string, readonly InventedPiece[]>> = {
  K: [
    { number: 1, gouge: [45, 59, 46], fate: 'kept' },
    { number: 2, gouge: [45, 59, 45], fate: 'reed', reed: 'K-117' },
    { number: 3, gouge: [46, 59, 45], fate: 'rejected', reason: 'warped' },
  ],
  M: [
    { number: 1, gouge: [46, 59, 45], fate: 'kept' },
    { number: 2, gouge: [46, 58.5, 45], fate: 'shaped' },
    { number: 3, gouge: [47, 59.5, 45], fate: 'rejected', reason: 'rippled' },
    { number: 4, gouge: [46, 59, 45], fate: 'reed', reed: 'M-142' },
    { number: 5, gouge: [47, 59, 45], fate: 'kept' },
    { number: 6, gouge: [47, 59.2, 44], fate: 'kept' },
    { number: 7, gouge: [48, 59.4, 44], fate: 'rejected', reason: 'one side thick' },
    { number: 8, gouge: [48, 59.5, 43], fate: 'reed', reed: 'M-139' },
    { number: 9, gouge: [48, 59.8, 43], fate: 'rejected', reason: 'one side thick' },
    { number: 10, gouge: [49, 60.2, 43], fate: 'rejected', reason: 'one side thick' },
  ],
  S: [{ number: 1, gouge: [47, 59, 45], fate: 'reed', reed: 'S-026' }],
};

const SIDE_MM = 4.3;
/** Pieces gouged since the blade was sharpened, when each lot was begun. */
const FIRST_AFTER_SHARPENING: Readonly<Record<string, number>> = { K: 160, S: 170, M: 180 };

/** Centre at three places along, half a hundredth more at the last; sides at both ends. */
function readings([side1, centre, side2]: InventedPiece['gouge']): GougeReading[] {
  const at = (alongMm: number, arcMm: number, hundredths: number): GougeReading => ({
    alongMm,
    arcMm,
    thicknessMm: Number((hundredths / 100).toFixed(3)),
  });
  return [
    at(15, 0, centre),
    at(37, 0, centre),
    at(60, 0, centre + 0.5),
    ...[15, 60].flatMap((along) => [at(along, -SIDE_MM, side1), at(along, SIDE_MM, side2)]),
  ];
}

/** Full widths at distances from the fold for a tip so wide; the usual flare. */
function shape(tipMm: number, atThreadMm: number, threadMm: number) {
  const flare = [
    [0, 1],
    [2, 0.994],
    [5, 0.963],
    [8, 0.909],
    [11, 0.847],
    [15, 0.77],
  ] as const;
  const widths = flare.map(([fromFoldMm, share]) => ({
    fromFoldMm,
    widthMm: Number((tipMm * share).toFixed(2)),
  }));
  return [...widths, { fromFoldMm: threadMm, widthMm: atThreadMm }];
}

/** The two invented shapes, with their ids by style. */
export function inventedShapes(newId: () => Id): Pick<InventedCane, 'documents' | 'shapeIds'> {
  const shapeIds = new Map([
    ['long-scrape', newId()],
    ['short-scrape', newId()],
  ]);
  const documents: NewDraft[] = [
    {
      kind: 'shape',
      id: shapeIds.get('long-scrape')!,
      name: 'narrow',
      widths: shape(7, 4.7, 23.2),
      invented,
    },
    {
      kind: 'shape',
      id: shapeIds.get('short-scrape')!,
      name: 'wide',
      widths: shape(7.2, 4.8, 25.3),
      invented,
    },
  ];
  return { documents, shapeIds };
}

/** The cane behind the invented reeds, and which piece and shape each of them came from. */
export interface InventedCane {
  readonly documents: readonly NewDraft[];
  readonly lotIds: ReadonlyMap<string, Id>;
  readonly pieceIds: ReadonlyMap<string, Id>;
  /** By style. */
  readonly shapeIds: ReadonlyMap<string, Id>;
}

/** Lots, pieces, shapes and the air of the room, all invented, dated back from now. */
export function inventedCane(newId: () => Id, at: (daysAgo: number) => string): InventedCane {
  const lotIds = new Map(Object.keys(LOTS).map((code) => [code, newId()]));
  const { documents: shapes, shapeIds } = inventedShapes(newId);
  const pieceIds = new Map<string, Id>();
  const pieces = Object.entries(PIECES).flatMap(([code, own]) =>
    own.map(({ number, gouge, fate, reason, reed }): NewDraft => {
      const id = newId();
      if (reed) pieceIds.set(reed, id);
      return {
        kind: 'piece',
        id,
        lotId: lotIds.get(code)!,
        number,
        tubeDiameterMm: code === 'S' ? 10.75 : 10.25,
        gouger: 'the bench gouger',
        sinceSharpened: FIRST_AFTER_SHARPENING[code]! + number,
        gougedOn: at(40).slice(0, 10),
        wetness: 'wet',
        readings: readings(gouge),
        fate,
        ...(reason && { reason }),
        invented,
      };
    }),
  );
  const documents: NewDraft[] = [
    ...[...lotIds].map(([code, id]): NewDraft => ({ kind: 'lot', id, code, ...LOTS[code]!, invented })),
    ...pieces,
    ...shapes,
    ...deskAir(at),
    smallHall(at(-6)),
  ];
  return { documents, lotIds, pieceIds, shapeIds };
}

/** Humidity at the invented desk, per cent: one a day over five weeks, up to today. */
const DESK_HUMIDITY_PCT = [
  55, 57, 54, 52, 50, 51, 53, 56, 58, 60, 57, 55, 54, 52, 49, 47, 48, 50, 53, 55, 57, 60, 64, 67, 69, 66, 62,
  58, 56, 55, 57, 58, 60, 63, 41,
];

const deskAir = (at: (daysAgo: number) => string): NewDraft[] =>
  DESK_HUMIDITY_PCT.map((humidityPct, k) => {
    const daysAgo = DESK_HUMIDITY_PCT.length - 1 - k;
    const temperatureC = daysAgo === 0 ? 21 : 21.5;
    return {
      kind: 'air',
      at: at(daysAgo),
      place: 'the desk',
      temperatureC,
      humidityPct,
      elevationM: 120,
      invented,
    };
  });

const smallHall = (at: string): NewDraft => ({
  kind: 'engagement',
  title: 'an invented small hall',
  at,
  wants: ['dry hall'],
  temperatureC: 20.5,
  humidityPct: 28,
  elevationM: 310,
  invented,
});
