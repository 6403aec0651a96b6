import { BLADES, type Blade } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import type { NumberFormat } from '../../src/words/format.ts';

/** How a file is wished for. */
interface FileWishes extends Pick<NumberFormat, 'decimal'> {
  /** How many times as large the thickness of bodies is drawn. */
  readonly exaggeration: number;
}

/** A kind of file that a fitted pass can be had as. */
interface PassFile {
  readonly words: string;
  readonly extension: string;
  readonly type: string;
  /** Offered where this blade was read; left out, always. */
  readonly blade?: Blade;
  readonly write: (reed: ReedAtPass, wishes: FileWishes) => Promise<string | Uint8Array>;
}

/** The points of an areal file lie this far apart. */
const STEP_MM = 0.1;

const solidsOf = async (reed: ReedAtPass, { exaggeration }: FileWishes) =>
  (await import('../../src/answers/surface-files.ts')).bladeSolids(reed, exaggeration);

const areal = (blade: Blade): PassFile => ({
  words: `Blade ${blade} as x3p`,
  extension: `${blade}.x3p`,
  type: 'application/zip',
  blade,
  async write(reed) {
    const [{ bladeGrids }, { rasterOf, writeX3p }] = await Promise.all([
      import('../../src/answers/surface-files.ts'),
      import('../../src/exchange/surfaces/x3p.ts'),
    ]);
    return writeX3p(
      rasterOf(
        bladeGrids(reed).find((one) => one.blade === blade)!,
        STEP_MM,
      ),
    );
  },
});

/** What a pass can be had as: a row each, a button each. */
export const PASS_FILES: PassFile[] = [
  {
    ...{ words: 'Bodies as glTF', extension: 'glb', type: 'model/gltf-binary' },
    write: async (reed, wishes) =>
      (await import('../../src/exchange/surfaces/glb.ts')).writeGlb(await solidsOf(reed, wishes)),
  },
  {
    ...{ words: 'Bodies as STL', extension: 'stl', type: 'model/stl' },
    async write(reed, wishes) {
      const { writeStl } = await import('../../src/exchange/surfaces/stl.ts');
      return writeStl((await solidsOf(reed, wishes)).map(({ solid }) => solid));
    },
  },
  ...BLADES.map(areal),
  {
    ...{ words: 'Readings as CSV', extension: 'csv', type: 'text/csv' },
    async write({ benched: { reed, passes } }, { decimal }) {
      const { writeLongCsv } = await import('../../src/exchange/csv/write-csv.ts');
      return writeLongCsv([{ label: reed.label, passes }], decimal);
    },
  },
];
