import { parseArgs } from 'node:util';
import { InputError } from '../../shared/errors.ts';

/** A full-width rectangle between two distances from the tip, to be averaged like a zone. */
export interface Rectangle {
  readonly name: string;
  readonly fromMm: number;
  readonly toMm: number;
}

/** A blade that is `atTipMm` wide at its tip and narrower by `taper` mm a mm. */
export interface StraightSides {
  readonly atTipMm: number;
  readonly taper: number;
  /** Whether distances count from the tip of the first pass, as cane has it, or from each pass's own. */
  readonly from: 'first-tip' | 'own-tip';
}

export interface ReportArguments {
  readonly files: readonly string[];
  readonly json: boolean;
  readonly help: boolean;
  /** Every reed by its own readings. */
  readonly alone: boolean;
  readonly at?: string;
  readonly rectangles: readonly Rectangle[];
  readonly width?: StraightSides;
}

export const USAGE = `npm run report -- FILE.csv [MORE.csv] [options]

Takes files of readings together and prints, for every reed and pass in them, zone means, balance, what was taken off,
and how sure each figure is.

  --json                   print JSON; its uMm are standard uncertainties (k = 1)
  --at POINTS.csv          also print the surface at places: columns blade, from_tip_mm, across
  --rectangle NAME:Y0:Y1   also average a full-width rectangle from Y0 to Y1 mm from the tip; may be repeated
  --width W0:TAPER         width of the blade in mm, W0 - TAPER y, by the distance y from the tip of the first pass
  --width-from tip         by the distance from each pass's own tip
  --alone                  every reed by its own readings, though it was read in few places and eight others were not
  --help                   print this
`;

const LONGEST_BLADE_MM = 30;

/** @throws InputError naming the argument that cannot be understood. */
export function parseArguments(args: readonly string[]): ReportArguments {
  const { values, positionals: files } = parsed(args);
  const from = values['width-from'] ?? 'cane';
  if (from !== 'tip' && from !== 'cane') throw new InputError(`--width-from: must be tip, got ${from}`);
  if (values['width-from'] !== undefined && values.width === undefined) {
    throw new InputError('--width-from: must come with --width W0:TAPER');
  }
  if (files.length === 0 && !values.help) throw new InputError('FILE.csv: must be given, at least one');
  return {
    files,
    json: values.json,
    help: values.help,
    alone: values.alone,
    rectangles: values.rectangle.map(rectangle),
    ...(values.at !== undefined && { at: values.at }),
    ...(values.width !== undefined && {
      width: straightSides(values.width, from === 'tip' ? 'own-tip' : 'first-tip'),
    }),
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        json: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
        alone: { type: 'boolean', default: false },
        at: { type: 'string' },
        rectangle: { type: 'string', multiple: true, default: [] },
        width: { type: 'string' },
        'width-from': { type: 'string' },
      },
    });
  } catch (error) {
    const [sentence] = String(error instanceof Error ? error.message : error).split('. ');
    throw new InputError(`arguments: ${sentence}; --help lists them`, { cause: error });
  }
}

function rectangle(text: string): Rectangle {
  const [name, from, to, ...rest] = text.split(':');
  const [fromMm, toMm] = [number(from), number(to)];
  if (!name || rest.length > 0 || !(fromMm >= 0 && toMm > fromMm && toMm <= 60)) {
    throw new InputError(`--rectangle: must be NAME:Y0:Y1 with 0 <= Y0 < Y1 <= 60 in mm, got ${text}`);
  }
  return { name, fromMm, toMm };
}

function straightSides(text: string, from: StraightSides['from']): StraightSides {
  const [width, narrowing, ...rest] = text.split(':');
  const [atTipMm, taper] = [number(width), number(narrowing)];
  if (rest.length > 0 || !(atTipMm <= 12 && taper >= 0 && atTipMm - taper * LONGEST_BLADE_MM > 0)) {
    throw new InputError(
      `--width: must be W0:TAPER with W0 up to 12 mm and a width left at ${LONGEST_BLADE_MM} mm from the tip, got ${text}`,
    );
  }
  return { atTipMm, taper, from };
}

/** A plain number, or NaN, which no comparison lets through. */
function number(text: string | undefined): number {
  return text !== undefined && /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
}
