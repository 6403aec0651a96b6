import { describe, expect, it } from 'vitest';
import { thicknessPlate } from '../../../components/bench/plate-data.ts';
import { bladeDrawing } from '../../../components/map/blade-drawing.ts';
import { roomFor, textBox } from '../../../components/map/boxes.ts';
import { stationBoxes } from '../../../components/map/station-layer.ts';
import { placeNames } from '../../../components/map/zone-names.ts';
import { isInZone } from '../../../src/blade/zones.ts';
import { zonesAt } from '../../../src/answers/fitted-reed.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const PASS = 3;
const SIZE = 10;
const reed = scenarioReed('m-142');
const plate = thicknessPlate(reed, PASS);

describe.each(['A', 'B'] as const)('names of zones on blade %s', (blade) => {
  const data = plate[blade]!;
  const drawing = bladeDrawing(data, data.bladeLengthMm);
  const taken = stationBoxes({
    drawing,
    data,
    quantity: 'difference',
    unit: 'hundredths',
    decimal: 'point',
    fontSize: 13.5,
  });
  const names = placeNames(drawing, data, taken, SIZE);
  const boxOf = ({ title, at, turn }: (typeof names)[number]) => textBox(title, at, SIZE, turn);

  it('are there once for each zone', () => {
    expect(names.map(({ title }) => title)).toEqual(data.zones.map(({ title }) => title));
  });

  it('stand inside their zone, or beside the blade at its height', () => {
    const zones = zonesAt(reed, PASS);
    for (const { title, at } of names) {
      const place = drawing.placeAt(...at);
      if (place.across > 1) {
        const outline = data.zones.find((zone) => zone.title === title)!.outlines!.flat();
        const heights = outline.map(({ fromTipMm }) => fromTipMm);
        expect(place.fromTipMm).toBeGreaterThanOrEqual(Math.min(...heights));
        expect(place.fromTipMm).toBeLessThanOrEqual(Math.max(...heights));
      } else {
        const { outlines } = zones.find((zone) => zone.title === title)!;
        expect(isInZone({ outlines }, place.fromTipMm, place.across)).toBe(true);
      }
    }
    expect(names.filter(({ at }) => drawing.placeAt(...at).across < 1).length).toBeGreaterThan(2);
  });

  it('keep clear of the figures on the wood, and of each other', () => {
    for (const name of names) {
      const others = names.filter((other) => other !== name).map(boxOf);
      expect(roomFor(boxOf(name), [...taken, ...others]), name.title).toBeGreaterThanOrEqual(1);
    }
  });
});
