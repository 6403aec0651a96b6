import { expect } from 'chai';
import { strFromU8, unzipSync } from 'fflate';
import { turningFilm } from '../../components/bench/turning-film.ts';
import { heldResources } from '../../components/scene/shared-renderer.ts';
import { benchReed } from '../../src/answers/fitted-reed.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { inventedMm } from './blades.ts';

const [WIDTH, HEIGHT, WORDS] = [960, 744, 84];

/** An invented reed of two passes: the second is 0.05 mm thinner. */
function twoPasses() {
  const passes = [0, 0.05].map((offMm, index) => ({
    index,
    overallLengthMm: 70,
    threadMm: 47,
    takenAt: `2026-11-2${index}T10:00:00+01:00`,
    remedies: [],
    readings: (['A', 'B'] as const).flatMap((blade) =>
      [1, 3, 6, 9, 12, 15, 18].flatMap((fromTipMm) =>
        [-0.6, 0, 0.6].map((across) => ({
          ...{ blade, fromTipMm, across, repeat: 0, flag: 'ok' as const, role: 'station' as const },
          thicknessMm: inventedMm(fromTipMm, across) + 0.1 - offMm,
        })),
      ),
    ),
  }));
  return benchReed(
    { label: 'V-1', styleId: 'long-scrape', invented: true } as Reed,
    passes as unknown as Pass[],
  );
}

/** What is written on each picture, in the order of the pictures. */
function written(): { readonly pictures: string[][]; readonly stop: () => void } {
  const { fillText } = CanvasRenderingContext2D.prototype;
  const { toBlob } = HTMLCanvasElement.prototype;
  const pictures: string[][] = [];
  let words: string[] = [];
  CanvasRenderingContext2D.prototype.fillText = function (...args) {
    words.push(args[0]);
    return fillText.apply(this, args);
  };
  HTMLCanvasElement.prototype.toBlob = function (...args) {
    pictures.push(words);
    words = [];
    return toBlob.apply(this, args);
  };
  return {
    pictures,
    stop: () => {
      CanvasRenderingContext2D.prototype.fillText = fillText;
      HTMLCanvasElement.prototype.toBlob = toBlob;
    },
  };
}

async function pixels(png: Uint8Array): Promise<ImageData> {
  const bitmap = await createImageBitmap(new Blob([new Uint8Array(png)], { type: 'image/png' }));
  const paper = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
  paper.drawImage(bitmap, 0, 0);
  return paper.getImageData(0, 0, bitmap.width, bitmap.height);
}

/** How many pixels of the reed, above its words, two pictures differ in. */
const apart = (one: ImageData, other: ImageData) =>
  Array.from({ length: WIDTH * (HEIGHT - WORDS) }, (_, k) => 4 * k).filter((k) =>
    [0, 1, 2].some((channel) => Math.abs(one.data[k + channel]! - other.data[k + channel]!) > 12),
  ).length;

it('films a turning reed: pictures of their size, each another, with datum, pass, legend and their captions', async () => {
  const benched = twoPasses();
  const writing = { unit: 'hundredths', decimal: 'comma' } as const;
  const { pictures, stop } = written();
  const shares: number[] = [];
  const film = await turningFilm(
    { benched, original: undefined, writing, theme: 'day' },
    { onProgress: (share) => shares.push(share) },
    3,
  ).finally(stop);
  const files = Object.entries(unzipSync(film));
  const pngs = files.filter(([name]) => name.endsWith('.png'));
  expect(pngs.map(([name]) => name)).to.deep.equal([1, 2, 3, 4, 5, 6].map((n) => `000${n}.png`));

  const images = await Promise.all(pngs.map(([, bytes]) => pixels(bytes)));
  for (const { width, height } of images) expect([width, height]).to.deep.equal([WIDTH, HEIGHT]);
  images.slice(1).forEach((image, k) => expect(apart(image, images[k]!), `${k}`).to.be.above(3000));

  const datum = pictures.map((words) => words.find((text) => text.startsWith('Seen from'))!);
  expect(datum[0]).to.equal('Seen from the cork. The dot is side 1.');
  expect(datum[3], 'half way round').to.match(/^Seen from the tip: left and right have changed places/);
  pictures.forEach((words, k) => {
    const caption = words.find((text) => text.startsWith('V-1'))!;
    expect(caption)
      .to.contain(`V-1 (invented), pass ${k < 3 ? 0 : 1}`)
      .and.to.contain('thickness × 4,5');
    expect(words.filter((text) => /^thin |thick$/.test(text))).to.have.length(2);
    expect(
      words.some((text) => text === 'A' || text === 'B'),
      `a blade is named, ${k}`,
    ).to.equal(true);
  });
  const [, captions] = files.find(([name]) => name.endsWith('.vtt'))!;
  expect(strFromU8(captions)).to.match(/00:00:00.250 --> 00:00:00.500\nV-1 \(invented\), pass 1/);
  expect(Math.max(...shares)).to.be.above(0.7);
  expect(heldResources().contexts, 'the hidden scene is given back').to.equal(0);
});
