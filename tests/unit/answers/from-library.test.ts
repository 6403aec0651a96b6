import { describe, expect, it } from 'vitest';
import { fitAnswers } from '../../../src/answers/concurrent/fit-answers.ts';
import { benchedFrom, type FitOrder } from '../../../src/answers/concurrent/fit-request.ts';
import type { OtherReeds } from '../../../src/answers/from-library.ts';
import { libraryWords } from '../../../src/answers/library-words.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import { familyReed } from '../../generator/family-reed.ts';
import { inventedMaker } from '../../generator/makers.ts';
import { libraryPass, libraryReed } from '../library-of-maker.ts';

const maker = inventedMaker('steady', 41);
const ids = Array.from({ length: 12 }, (_, k) => `reed ${k}`);
const OTHERS: OtherReeds = {
  ...{ key: 'twelve', gauges: [], reeds: ids.map(libraryReed) },
  passes: ids.map((id, k) => libraryPass(id, maker.reed(k).passes[0]!.readings)),
};
const few = ({ fromTipMm, across }: FitReading) =>
  [1, 3, 4, 5, 6, 8, 12, 16].includes(fromTipMm) && (Math.round(across * 2.5) + fromTipMm) % 2 === 0;

const orderOf = (readings: readonly FitReading[], others?: OtherReeds): FitOrder => ({
  ...{ key: `few ${readings.length} ${others?.key}`, reed: libraryReed('few'), gauges: [] },
  passes: [libraryPass('few', readings)],
  ...(others && { others }),
});
const answering = fitAnswers();
const fitted = async (order: FitOrder) => benchedFrom(order, await answering({ ...order, want: 'surfaces' }));

describe('a reed read in few places', () => {
  const own = maker.reed(50);
  const readings = own.passes[0]!.readings.filter(few);
  const PLACES = (['A', 'B'] as const).flatMap((blade) =>
    [1.5, 3.5, 4.5, 5.5, 7, 9, 11, 14].flatMap((fromTipMm) =>
      [-0.6, 0.1, 0.5].map((across) => ({ blade, pass: 0, fromTipMm, across })),
    ),
  );

  it('is told from its readings and the maker’s other reeds, and says so', async () => {
    const [alone, told] = [await fitted(orderOf(readings)), await fitted(orderOf(readings, OTHERS))];
    expect(alone.fromLibrary).toBeUndefined();
    expect(told.fromLibrary).toEqual({
      reeds: 12,
      readings: readings.length,
      isOutside: false,
      isChanging: false,
    });
    expect(libraryWords(told.fromLibrary!)).toBe(
      `From ${readings.length} readings here and 12 of your reeds.`,
    );
    const rms = (model: typeof told.model) => {
      const squares = PLACES.map((place) => {
        const { valueMm } = estimate(model!, pointFunctional(model!, place));
        return (valueMm - own.thicknessMm(place.blade, 0, place.fromTipMm, place.across)) ** 2;
      });
      return Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / squares.length);
    };
    expect(rms(told.model)).toBeLessThan(0.7 * rms(alone.model));
  });

  it('has the very figures that it had where no other reeds are asked, or too few', async () => {
    const seven = { ...OTHERS, key: 'seven', reeds: OTHERS.reeds.slice(0, 7) };
    const [alone, told] = [await fitted(orderOf(readings)), await fitted(orderOf(readings, seven))];
    expect(told.fromLibrary).toBeUndefined();
    expect(told.model!.blades).toEqual(alone.model!.blades);
  });

  it('rests on its own readings where it is unlike the others, and says so', async () => {
    const stranger = familyReed({
      ...{ family: 'short', gauge: maker.gauge, handMm: 0.1, extent: 'full', count: 1, seed: 3 },
    });
    const strange = stranger.passes[0]!.readings.filter(few);
    const [alone, told] = [await fitted(orderOf(strange)), await fitted(orderOf(strange, OTHERS))];
    expect(told.fromLibrary?.isOutside).toBe(true);
    expect(libraryWords(told.fromLibrary!)).toContain('unlike your other 12');
    expect(told.model!.blades).toEqual(alone.model!.blades);
  });

  it('rests on its own readings while the last reeds are of another kind than those before, and says so', async () => {
    const thicker = (id: string, k: number) => {
      const whole = maker.reed(100 + k).passes[0]!.readings;
      const more = whole.map((one) => ({ ...one, thicknessMm: one.thicknessMm * 1.4 }));
      return libraryPass(id, k < 10 ? maker.reed(k).passes[0]!.readings : more);
    };
    const changing = { ...OTHERS, key: 'changing', passes: ids.map(thicker) };
    const [alone, told] = [await fitted(orderOf(readings)), await fitted(orderOf(readings, changing))];
    expect(told.fromLibrary).toMatchObject({ isChanging: true });
    expect(libraryWords(told.fromLibrary!)).toContain('of another kind than those before them');
    expect(libraryWords(told.fromLibrary!)).toContain('its own');
    expect(told.model!.blades).toEqual(alone.model!.blades);
  });

  it('is not told by others once it was read in full', async () => {
    const whole = own.passes[0]!.readings;
    const [alone, told] = [await fitted(orderOf(whole)), await fitted(orderOf(whole, OTHERS))];
    expect(told.fromLibrary).toBeUndefined();
    expect(told.model!.blades).toEqual(alone.model!.blades);
  });

  it('has a slip of its first pass asked about that its own readings alone do not show', async () => {
    const whole = own.passes[0]!.readings;
    const slipped = whole.map((one) =>
      one.blade === 'A' && one.fromTipMm === 8 && one.across === 0
        ? { ...one, thicknessMm: one.thicknessMm + 0.05 }
        : one,
    );
    const asked = async (readings: readonly FitReading[], others?: OtherReeds) => {
      const { faults } = await answering({ ...orderOf(readings, others), want: 'faults' });
      return faults!.flatMap((pass) => [...pass.faults.map(({ place }) => place), ...pass.readAgain]);
    };
    expect(await asked(slipped)).toEqual([]);
    expect(await asked(slipped, OTHERS)).toMatchObject([{ fromTipMm: 8, across: 0 }]);
    expect(await asked(whole, OTHERS)).toEqual([]);
  });
});
