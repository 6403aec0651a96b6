import { validateBytes } from 'gltf-validator';
import { describe, expect, it } from 'vitest';
import { makeLight } from '../../../components/scene/cane-material.ts';
import { ReedModel } from '../../../components/scene/reed-model.ts';
import { sceneSolids } from '../../../components/scene/scene-solids.ts';
import { POSES } from '../../../components/scene/stance.ts';
import { channels } from '../../../components/theme/contrast.ts';
import { ramp } from '../../../components/theme/ramp.ts';
import { writeGlb } from '../../../src/exchange/surfaces/glb.ts';
import { flatBlade, settings } from './flat-reed.ts';

/** sRGB of a light-linear channel, 0 to 255. Source: IEC 61966-2-1. */
const coded = (linear: number) =>
  255 * (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055);

function solids(measurable?: readonly number[]) {
  const blade = flatBlade('A', () => 0.31);
  const difference = measurable && { ...blade, valuesMm: blade.valuesMm.map(() => 0.03), measurable };
  const model = new ReedModel(
    {
      ...settings('opened'),
      blades: [{ ...blade, ...(difference && { print: { is: 'lifted', difference } }) }],
    },
    'day',
    makeLight(),
    0.2,
  );
  model.pose(POSES.opened);
  const found = sceneSolids(model.object);
  model.dispose();
  return found;
}

describe('what is seen of a scene, as bodies', () => {
  it("carries the legend's colour of the thickness on the bark", () => {
    const bark = solids().find(({ name }) => name === 'bark')!;
    // 0.31 mm lies in the band from 0.30 to 0.32.
    const band = ramp('thickness', 'day').bands.find(({ fromMm }) => Math.abs(fromMm - 0.3) < 1e-9)!;
    const first = Array.from(bark.colours!.slice(0, 3), coded);
    // Half a step of an 8-bit channel.
    channels(band.colour).forEach((channel, k) => expect(first[k]!).toBeCloseTo(channel, 0));
  });

  it('cuts away what is not measurable', () => {
    const count = flatBlade('A').valuesMm.length;
    const faces = (measurable: readonly number[]) =>
      solids(measurable).find(({ name }) => name === 'block')?.solid.faces.length ?? 0;
    expect(faces(Array.from({ length: count }, () => 0))).toBe(0);
    const half = faces(Array.from({ length: count }, (_, k) => (k < count / 2 ? 1 : 0)));
    const whole = faces(Array.from({ length: count }, () => 1));
    // The border runs between two rows of the coarse mesh.
    expect(half / whole).toBeGreaterThan(0.4);
    expect(half / whole).toBeLessThan(0.6);
  });

  it('is a valid glTF 2.0 file with colours', async () => {
    const { issues, info } = await validateBytes(writeGlb(solids()));
    expect(issues.messages).toEqual([]);
    expect(info.totalTriangleCount).toBeGreaterThan(500);
  });
});
