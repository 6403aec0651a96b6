// Fits generated reeds and sets every figure beside the truth: npm run study:surface -- [COUNT] [FIRST_SEED].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [count = '300', first = '20001'] = process.argv.slice(2);
const { studySurfaces } = await import(
  pathToFileURL(await bundleForNode('tests/study/surface-study.ts')).href
);
const { settings, summaries, noiseRatios } = studySurfaces(Number(count), Number(first));
settings.forEach((line) => console.log(line));
const percent = (share) => (100 * share).toFixed(1);
const micrometres = (mm) => (1000 * mm).toFixed(1);
console.table(
  Object.fromEntries(
    Object.entries(summaries).map(([name, s]) => [
      name,
      {
        places: s.points,
        'covered %': percent(s.covered),
        'tip %': percent(s.coveredByPart.tip),
        'ridge %': percent(s.coveredByPart.ridge),
        'heart %': percent(s.coveredByPart.heart),
        'back %': percent(s.coveredByPart.back),
        'rms µm': micrometres(s.rmsMm),
        'half-width µm': micrometres(s.halfWidthMm),
        'rectangles %': percent(s.rectanglesCovered),
        'removed rms µm': micrometres(s.removedRmsMm),
        'scrapes: bias %': percent(s.scrapedBias),
        'scrapes covered %': percent(s.scrapedCovered),
        'untouched called %': percent(s.untouchedCalled),
      },
    ]),
  ),
);
const [least, middle, greatest] = noiseRatios.map((ratio) => ratio.toFixed(2));
console.log(`noise of one reading, estimated over true: median ${middle}, from ${least} to ${greatest}`);
