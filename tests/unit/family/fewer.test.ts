import { describe, expect, it } from 'vitest';
import { studyAfterChange, studyFewer } from '../../study/fewer-study.ts';

// The long form is npm run study:fewer; what it found stands in src/family/README.md.
describe('few readings with what a library teaches', () => {
  it('say more of the blend than half a grid without, within their doubt, and know a stranger', () => {
    const { learned, half, own, strangers } = studyFewer('steady', 16, 21, 1, 4);
    const rms = (of: typeof learned, name: string) =>
      Math.sqrt(of.get(name)!.squaresMm2 / of.get(name)!.count);
    expect(rms(learned, 'zone blend')).toBeLessThan(rms(half, 'zone blend'));
    const points = ['tip', 'ridge', 'heart', 'back'].map((region) => learned.get(region)!);
    const count = points.reduce((sum, one) => sum + one.count, 0);
    // 160 points of four reeds: 92 % of them at least.
    expect(points.reduce((sum, { within }) => sum + within, 0) / count).toBeGreaterThan(0.92);
    expect(own.outside).toBe(0);
    // Another maker's reed may look like this one's; a short scrape does not.
    expect(strangers.outside).toBeGreaterThan(0);
  });

  it('are not trusted with five reeds: the figures are those of the usual prior', () => {
    const { learned, half, untaught } = studyFewer('varied', 5, 22, 1, 1);
    expect(untaught).toBe(1);
    expect(learned).toEqual(half);
  });

  it('notice a change of style within three reeds, and cover the reeds after it', () => {
    const { figures, inFull, isNoticed } = studyAfterChange(330003, 15, 2);
    expect(isNoticed).toBe(true);
    expect(inFull).toBe(2);
    const points = ['tip', 'ridge', 'heart', 'back'].map((region) => figures.get(region)!);
    const [count, within] = [
      points.reduce((sum, one) => sum + one.count, 0),
      points.reduce((sum, one) => sum + one.within, 0),
    ];
    expect(count).toBe(80);
    expect(within / count).toBeGreaterThan(0.9);
  });
});
