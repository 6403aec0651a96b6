import * as z from 'zod';
import { stampShape } from './stamp.ts';
import { thicknessMmSchema, thicknessUnitSchema } from './fields.ts';

/** The gouge a maker wishes for. */
export const wishedGougeSchema = z.strictObject({
  centreMm: thicknessMmSchema,
  sideMm: thicknessMmSchema,
  /** Where the sides are read: distance from the middle along the bark, mm. */
  sideArcMm: z.number().min(1).max(10),
  /** Sides that differ by more end the piece. */
  mostSideDifferenceMm: z.number().positive().max(0.2),
});
export type WishedGouge = z.infer<typeof wishedGougeSchema>;

/** How fast cane swallows the light of a lamp, 1/mm. The bounds catch a slip. Common practice, no source. */
const attenuationSchema = z.number().min(0.1).max(20);

/** How a bare block of numbers lies on the blades. */
export const blockAnswerSchema = z.strictObject({
  /** Each of its columns is a row across the blade. */
  turned: z.boolean(),
  /** Its first column holds the distances from the tip. */
  distancesFirst: z.boolean(),
  /** One blade, or A and then B side by side or one under the other. */
  blades: z.enum(['A', 'B', 'beside', 'under']),
  fromTipMm: z.array(z.number().min(-1).max(60)).min(1).max(120),
  across: z.array(z.number().min(-1).max(1)).min(1).max(60),
});
export type BlockAnswer = z.infer<typeof blockAnswerSchema>;

/** What the maker answered for files of one shape: the same form, headings and separator. */
export const fileShapeSchema = z.strictObject({
  shape: z.string().min(1).max(4000),
  answers: z.strictObject({
    unit: thicknessUnitSchema.optional(),
    decimal: z.enum(['point', 'comma']).optional(),
    /** The file's own heading of each column that the bench knows by another name. */
    columns: z.record(z.string().max(60), z.string().max(400)).optional(),
    block: blockAnswerSchema.optional(),
  }),
});
export type FileShape = z.infer<typeof fileShapeSchema>;

/** The maker's own choices; one document a library. */
export const settingsSchema = z.strictObject({
  kind: z.literal('settings'),
  ...stampShape,
  unit: thicknessUnitSchema,
  decimal: z.enum(['point', 'comma']),
  handedness: z.enum(['right', 'left']),
  pitchHz: z.number().min(400).max(480),
  theme: z.enum(['system', 'day', 'dark', 'lamp']),
  textScale: z.number().min(0.9).max(1.5),
  letterKeys: z.boolean(),
  sounds: z.enum(['off', 'tones', 'speech']),
  /** What takes a typed reading in a round: Enter, or its last digit. */
  takes: z.enum(['enter', 'digits']).optional(),
  /** How the digits of the round's own keys stand: 1 at the top, or 7 at the top. */
  digits: z.enum(['telephone', 'number-pad']).optional(),
  /** Zones of the tip are advised after the others. */
  tipLast: z.boolean().optional(),
  /** Whether a reed that was read in few places is fitted with what the maker's other reeds lead to expect. */
  fromOthers: z.boolean().optional(),
  /** No stroke is advised nearer to a floor or to a lack, mm. The bounds catch a slip. Common practice, no source. */
  marginMm: z.number().min(0.5).max(6).optional(),
  /** Answers to what files left open, the latest last. */
  fileShapes: z.array(fileShapeSchema).max(40).optional(),
  gouge: wishedGougeSchema.optional(),
  /** As the maker matched it to their own lamp and cane; absent until then. */
  lampAttenuationPerMm: attenuationSchema.optional(),
});
export type Settings = z.infer<typeof settingsSchema>;
