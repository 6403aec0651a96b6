import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import '../../components/map/blade-map.ts';
import '../../components/picture/picture.ts';
import type { BenchPicture } from '../../components/picture/picture.ts';
import { pngBlob, svgText } from '../../components/picture/picture-export.ts';
import { pictureParts } from '../../components/picture/picture-parts.ts';
import { bladeDrawing } from '../../components/map/blade-drawing.ts';
import { channels } from '../../components/theme/contrast.ts';
import { bandOf, ramp } from '../../components/theme/ramp.ts';
import { chooseTheme } from '../../components/theme/theme-controller.ts';
import { expectAccessible } from './accessible.ts';
import { BLADE_LENGTH_MM, inventedBlade, inventedMm } from './blades.ts';

const NOTE = { caption: 'Invented reed, pass 3, hundredths of a mm', date: '2025-03-14' };
const drawing = bladeDrawing(inventedBlade('A'), BLADE_LENGTH_MM);

async function shown(): Promise<BenchPicture> {
  const bare = { ...inventedBlade('A'), marks: [], zones: [] };
  const el = await fixture<BenchPicture>(
    html`<bench-picture .caption=${NOTE.caption} .date=${NOTE.date}>
      <bench-blade-map .data=${bare}></bench-blade-map>
      <canvas part="picture" width="40" height="40"></canvas>
      <p part="words">thin at the tip</p>
    </bench-picture>`,
  );
  await el.querySelector('bench-blade-map')!.updateComplete;
  return el;
}

async function pixels(blob: Blob) {
  const bitmap = await createImageBitmap(blob);
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const paper = canvas.getContext('2d')!;
  paper.drawImage(bitmap, 0, 0);
  return paper.getImageData(0, 0, bitmap.width, bitmap.height);
}

describe('picture export', () => {
  afterEach(() => chooseTheme(document.documentElement, 'system'));

  it('is offered accessibly', async () => {
    await expectAccessible(await shown());
  });

  it('finds drawings and canvases, in shadows too', async () => {
    const { pictures, words } = pictureParts(await shown());
    expect(pictures.map(({ part }) => part.localName)).to.deep.equal(['svg', 'canvas']);
    expect(words.map(({ part }) => part)).to.deep.equal(['thin at the tip']);
  });

  it('writes a drawing that needs no style sheet, with caption, units and date', async () => {
    const text = svgText(pictureParts(await shown()), NOTE);
    const file = new DOMParser().parseFromString(text, 'image/svg+xml');
    expect(file.querySelector('parsererror')).to.equal(null);
    const lines = [...file.documentElement.children].filter(({ localName }) => localName === 'text');
    const [words, ...note] = lines.map((line) => line.textContent);
    // A caption may take more than one line.
    expect([words, note.slice(0, -1).join(' '), note.at(-1)]).to.deep.equal([
      'thin at the tip',
      NOTE.caption,
      NOTE.date,
    ]);
    expect(text).to.not.contain('var(--');
    expect(text).to.not.contain('class=');
  });

  it('keeps pictures and words where they stand on the page, and breaks a caption that is wider', async () => {
    const el = await shown();
    const parts = pictureParts(el);
    const caption =
      'Invented reed, pass 3 less pass 2, bark side, tip up, as placed from the cork end '.repeat(4);
    const file = new DOMParser().parseFromString(
      svgText(parts, { ...NOTE, caption: `${caption}hundredths of a mm` }),
      'image/svg+xml',
    ).documentElement;
    const number = (element: Element, name: string) => Number(element.getAttribute(name));
    const [map, canvas] = [...file.children].filter(({ localName }) => /svg|image/.test(localName));
    const [mapOnPage, canvasOnPage] = parts.pictures;
    const scale = number(map!, 'width') / mapOnPage!.width;
    expect(scale).to.be.closeTo(drawing.width / mapOnPage!.width, 1e-6);
    expect(number(canvas!, 'y') - number(map!, 'y')).to.be.closeTo(
      scale * (canvasOnPage!.top - mapOnPage!.top),
      1e-3,
    );
    const lines = [...file.children].filter(({ localName }) => localName === 'text').slice(1, -1);
    expect(lines.length).to.be.above(1);
    expect(lines.map((line) => line.textContent).join(' ')).to.contain(`cork end hundredths of a mm`);
  });

  for (const theme of ['day', 'lamp'] as const)
    it(`has at each place the colour of its thickness, ${theme}`, async () => {
      chooseTheme(document.documentElement, theme);
      const el = await shown();
      const labels = [
        ...el.querySelector('bench-blade-map')!.shadowRoot!.querySelectorAll<SVGTextElement>('.levels text'),
      ].map((label) => label.transform.baseVal.consolidate()!.matrix);
      const { data, width } = await pixels(
        await pngBlob({ pictures: pictureParts(el).pictures.slice(0, 1), words: [] }, NOTE, 1),
      );
      const scale = ramp('thickness', theme);
      let compared = 0;
      for (let fromTipMm = 0.5; fromTipMm < 20; fromTipMm += 0.25)
        for (const across of [-0.9, -0.5, 0.1, 0.6]) {
          const [x, y] = [drawing.x(fromTipMm, across), drawing.y(fromTipMm)].map(Math.floor) as [
            number,
            number,
          ];
          // A value that is written on a line.
          if (labels.some(({ e, f }) => Math.abs(e - x) < 12 && Math.abs(f - y) < 12)) continue;
          // The place at the middle of that pixel, and how near it is to a border or a line that is drawn there.
          const place = drawing.placeAt(x + 0.5, y + 0.5);
          const thicknessMm = inventedMm(place.fromTipMm, place.across);
          const { fromMm, toMm, colour } = scale.bands[bandOf(scale, thicknessMm)]!;
          const toContour = Math.abs(thicknessMm / 0.01 - Math.round(thicknessMm / 0.01)) * 0.01;
          if (toContour < 0.003 || Math.min(thicknessMm - fromMm, toMm - thicknessMm) < 0.003) continue;
          const at = 4 * (y * width + x);
          channels(colour).forEach((channel, k) => expect(data[at + k]!).to.be.closeTo(channel, 1));
          compared++;
        }
      expect(compared).to.be.above(60);
    });
});
