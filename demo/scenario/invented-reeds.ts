import { makeId, type Id } from '../../shared/ids.ts';
import { moment } from '../../shared/moment.ts';
import type { Reading } from '../../shared/reading.ts';
import type { NewDraft } from '../../src/ledger/drafts.ts';
import { inventedCane, type InventedCane } from './invented-cane.ts';
import { INVENTED_READINGS } from './invented-readings.ts';
import { INVENTED_REEDS, type InventedPass, type InventedReed } from './invented-reed-table.ts';

const POSITIONS = [-0.8, -0.4, 0, 0.4, 0.8];
const DAY_MS = 86_400_000;
const invented = true as const;

function stations(table: string): Reading[] {
  return table
    .trim()
    .split('\n')
    .flatMap((row) => {
      const [fromTip, ...blades] = row.split('|').map((part) => part.trim());
      return blades.flatMap((cells, b) =>
        cells.split(' ').map(
          (cell, i): Reading => ({
            blade: b === 0 ? 'A' : 'B',
            fromTipMm: Number(fromTip),
            across: POSITIONS[i]!,
            thicknessMm: Number(cell) / 100,
            repeat: 0,
            flag: 'ok',
            role: 'station',
          }),
        ),
      );
    });
}

/** The two readings of untouched cane, centre, 3 mm above the thread. */
function controlReadings(overallLengthMm: number, controls: readonly [number, number] | undefined): Reading[] {
  return (controls ?? []).map((hundredths, i) => ({
    blade: i === 0 ? 'A' : 'B',
    fromTipMm: Number((overallLengthMm - 50).toFixed(2)),
    across: 0,
    thicknessMm: hundredths / 100,
    repeat: 0,
    flag: 'ok',
    role: 'control',
  }));
}

/** All documents of the invented scenario, marked as invented, dated back from now. */
export function inventedReeds(now: Date, random: (count: number) => Uint8Array): NewDraft[] {
  const newId = () => makeId(now.getTime(), random(10));
  const at = (daysAgo: number) => moment(new Date(now.getTime() - daysAgo * DAY_MS));
  const cane = inventedCane(newId, at);
  return [...cane.documents, ...INVENTED_REEDS.flatMap((one) => documentsOf(one, cane, newId, at))];
}

function documentsOf(
  { reed, passes, daysAgo, playedHours }: InventedReed,
  { lotIds, pieceIds, shapeIds }: InventedCane,
  newId: () => Id,
  at: (daysAgo: number) => string,
): NewDraft[] {
  const reedId = newId();
  const [lotId, pieceId] = [lotIds.get(reed.label[0]!), pieceIds.get(reed.label)];
  const cane = { lotId, pieceId, shapeId: shapeIds.get(reed.styleId) };
  const lastDay = passes.at(-1)!.day;
  const when = ({ day }: InventedPass) => at(daysAgo + lastDay - day);
  const favourite = reed.label === 'K-117' && { favourite: { passIndex: 0, since: at(daysAgo) } };
  const retirement = reed.state === 'retired' && {
    retirement: { on: at(daysAgo).slice(0, 10), cause: 'never good' as const },
  };
  const documents: NewDraft[] = [
    { kind: 'reed', id: reedId, ...reed, ...cane, tags: [], ...favourite, ...retirement, invented },
  ];
  passes.forEach((pass, index) => {
    const { day: _day, controls, played, ...facts } = pass;
    const readings = [
      ...stations(INVENTED_READINGS[reed.label]![index]!),
      ...controlReadings(facts.overallLengthMm ?? 70, controls),
    ];
    const own = { reedId, takenAt: when(pass), threadMm: 47, gaugeStepMm: 0.01, remedies: [], invented };
    documents.push({ kind: 'pass', ...own, ...facts, index, readings });
    if (played)
      documents.push({
        kind: 'trial',
        reedId,
        afterPass: index,
        playedAt: when(pass),
        pitchCents: [],
        ...played,
        invented,
      });
  });
  if (playedHours !== undefined)
    documents.push({
      kind: 'use',
      reedId,
      at: at(Math.max(0, daysAgo - 1)),
      minutes: playedHours * 60,
      service: reed.purpose === 'concert' ? 'concert' : 'rehearsal',
      invented,
    });
  return documents;
}
