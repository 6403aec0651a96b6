import { zipSync, strToU8, type Zippable } from 'fflate';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { writeVtt } from '../../src/exchange/web-vtt.ts';
import { rest, type ProgressOptions } from '../../src/ledger/patience.ts';
import { numberText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { quantityText } from '../map/quantity-text.ts';
import { ENLARGED, type ReliefBlade } from '../relief/relief-data.ts';
import { HiddenScene } from '../scene/hidden-scene.ts';
import { HOME } from '../scene/stance.ts';
import { PALETTE, type Theme } from '../theme/palette.ts';
import { ramp } from '../theme/ramp.ts';
import { thicknessPlate } from './plate-data.ts';
import { reliefBlades } from './relief-blades.ts';

/** Pictures in a second, and of each pass. */
const RATE = 12;
const OF_A_PASS = 18;
/** Size of a picture, pixels: the reed above, its words below. */
const SIZE = { width: 960, reed: 660, words: 84 };
const LEGEND = { width: 260, height: 12 };
const NAME_AHEAD_MM = 1.4;

/** What a film is made of. */
export interface FilmedReed {
  readonly benched: FittedReed;
  readonly original: OriginalCane | undefined;
  readonly writing: NumberFormat;
  readonly theme: Theme;
}

/**
 * A reed that turns once round on its staple while its passes follow each other: numbered PNG pictures and their captions
 * (WebVTT) in one zip file.
 *
 * @param ofAPass Pictures of each pass.
 * @throws Error when the browser has no WebGL; the signal's reason when it was aborted.
 */
export async function turningFilm(
  reed: FilmedReed,
  patience: ProgressOptions,
  ofAPass = OF_A_PASS,
): Promise<Uint8Array> {
  const { benched, original } = reed;
  const { passes } = benched.assembled;
  const studio = new Studio(reed);
  const files: Zippable = {};
  const count = ofAPass * passes.length;
  try {
    for (let k = 0; k < count; k++) {
      await rest(patience, k / count);
      const pass = Math.floor(k / ofAPass);
      if (k % ofAPass === 0)
        studio.take(reliefBlades(benched, pass, thicknessPlate(benched, pass), original).map(bare));
      const picture = await studio.picture((2 * Math.PI * k) / count, captionOf(reed, pass));
      files[`${String(k + 1).padStart(4, '0')}.png`] = [picture, { level: 0 }];
    }
  } finally {
    studio.close();
  }
  const lastsS = ofAPass / RATE;
  const cues = passes.map((_, pass) => ({
    fromS: pass * lastsS,
    toS: (pass + 1) * lastsS,
    words: captionOf(reed, pass),
  }));
  return zipSync({ ...files, [`captions at ${RATE} pictures a second.vtt`]: strToU8(writeVtt(cues)) });
}

function captionOf({ benched, writing }: FilmedReed, pass: number): string {
  const { index } = benched.assembled.passes[pass]!;
  const day = benched.passes[pass]?.takenAt?.slice(0, 10);
  const words = [
    `${benched.reed.label}${benched.reed.invented ? ' (invented)' : ''}`,
    `pass ${index}`,
    ...(day ? [day] : []),
    UNIT_WORDS[writing.unit].caption,
    `thickness × ${numberText(ENLARGED.thickness, 1, writing)}`,
  ];
  return words.join(', ');
}

/** The reed itself: neither its floor nor the cane that it was made of. */
function bare({
  floorMm: _floorMm,
  originalMm: _originalMm,
  corners: _corners,
  ...blade
}: ReliefBlade): ReliefBlade {
  return blade;
}

/** A scene out of sight, and the sheet that its pictures are put together on. */
class Studio {
  private readonly reed: FilmedReed;
  private readonly sheet = document.createElement('canvas');
  private readonly hidden = new HiddenScene(SIZE.width, SIZE.reed);
  private blades: readonly ReliefBlade[] = [];

  constructor(reed: FilmedReed) {
    this.reed = reed;
    Object.assign(this.sheet, { width: SIZE.width, height: SIZE.reed + SIZE.words });
  }

  take(blades: readonly ReliefBlade[]): void {
    this.blades = blades;
    this.hidden.show(blades, this.reed.writing.unit, this.reed.theme);
  }

  /** @returns A PNG file. */
  async picture(turn: number, caption: string): Promise<Uint8Array> {
    this.hidden.scene.circleTo({ ...HOME.staple, turn: HOME.staple.turn + turn });
    const drawn = this.hidden.scene.snapshot(1 / devicePixelRatio);
    const paper = this.sheet.getContext('2d')!;
    const { plate, ink } = PALETTE[this.reed.theme];
    Object.assign(paper, { fillStyle: plate, textAlign: 'center', textBaseline: 'middle' });
    paper.fillRect(0, 0, this.sheet.width, this.sheet.height);
    paper.drawImage(drawn, 0, 0, SIZE.width, SIZE.reed);
    paper.fillStyle = ink;
    this.name(paper);
    this.caption(paper, caption);
    this.legend(paper);
    const blob = await new Promise<Blob | null>((done) => this.sheet.toBlob(done));
    if (!blob) throw new Error('The browser could not write a picture.');
    return new Uint8Array(await blob.arrayBuffer());
  }

  close(): void {
    this.hidden.close();
  }

  /** The letter of each blade that looks at the eye. */
  private name(paper: CanvasRenderingContext2D) {
    paper.font = '30px serif';
    for (const { blade } of this.blades) {
      const at = this.hidden.scene.onCanvas({ blade, fromTipMm: -NAME_AHEAD_MM, across: 0 }, 'name');
      if (at && at.facing > 0) paper.fillText(blade, at.left, at.top);
    }
  }

  private caption(paper: CanvasRenderingContext2D, caption: string) {
    Object.assign(paper, { textAlign: 'left', font: '16px sans-serif' });
    paper.fillText(caption, 20, SIZE.reed + 22);
    const from = this.hidden.scene.isFromTip
      ? 'Seen from the tip: left and right have changed places. The dot is side 1.'
      : 'Seen from the cork. The dot is side 1.';
    paper.fillText(from, 20, SIZE.reed + 48);
  }

  private legend(paper: CanvasRenderingContext2D) {
    const scale = ramp('thickness', this.reed.theme);
    const [left, top] = [SIZE.width - LEGEND.width - 20, SIZE.reed + 14];
    const step = LEGEND.width / scale.bands.length;
    scale.bands.forEach(({ colour }, k) => {
      paper.fillStyle = colour;
      paper.fillRect(left + k * step, top, step + 0.5, LEGEND.height);
    });
    paper.fillStyle = PALETTE[this.reed.theme].ink;
    const end = (valueMm: number) => quantityText('thickness', valueMm, this.reed.writing);
    paper.fillText(`thin ${end(scale.fromMm)}`, left, top + 34);
    paper.textAlign = 'right';
    paper.fillText(`${end(scale.toMm)} thick`, left + LEGEND.width, top + 34);
    paper.textAlign = 'center';
  }
}
