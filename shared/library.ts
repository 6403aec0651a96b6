import * as z from 'zod';
import { lotSchema, pieceSchema, shapeSchema } from './cane.ts';
import { floorsSchema } from './floors.ts';
import { gaugeSchema } from './gauge.ts';
import { gridSchema } from './grid.ts';
import { habitSchema } from './habit.ts';
import { idSchema } from './ids.ts';
import { passSchema } from './pass.ts';
import { photoSchema } from './photo.ts';
import { reedSchema } from './reed.ts';
import { airReadingSchema, engagementSchema, useSchema } from './room.ts';
import { actSchema, roundSchema } from './round.ts';
import { scrapePlanSchema } from './scrape-plan.ts';
import { settingsSchema } from './settings.ts';
import { FORMAT_VERSION, versionsSchema } from './stamp.ts';
import { styleSchema } from './style.ts';
import { targetSchema } from './target.ts';
import { trialSchema } from './trial.ts';
import { momentSchema } from './fields.ts';
import { zonesSchema } from './zones.ts';

/** Everything that a library keeps, told apart by `kind`. */
export const documentSchema = z
  .discriminatedUnion('kind', [
    reedSchema,
    passSchema,
    roundSchema,
    trialSchema,
    lotSchema,
    pieceSchema,
    shapeSchema,
    airReadingSchema,
    engagementSchema,
    useSchema,
    gaugeSchema,
    gridSchema,
    styleSchema,
    settingsSchema,
    photoSchema,
    targetSchema,
    scrapePlanSchema,
    habitSchema,
    floorsSchema,
    zonesSchema,
  ])
  .meta({ id: 'document' });
export type LibraryDocument = z.infer<typeof documentSchema>;
export type DocumentKind = LibraryDocument['kind'];

/** A side of a disagreement, kept when the maker chose another. */
export const notChosenSchema = z.strictObject({
  at: momentSchema.describe('When the choice was made.'),
  side: documentSchema,
});
export type NotChosen = z.infer<typeof notChosenSchema>;

/** What was removed for good. Versions that it has seen stay removed; one that it has not seen does not. */
export const goneSchema = z.strictObject({ id: idSchema, versions: versionsSchema, at: momentSchema });
export type Gone = z.infer<typeof goneSchema>;

/** 5,000 reeds with 20 passes each and what belongs to them, and as much again. Our own numbers. */
export const MAX_DOCUMENTS = 1_000_000;
export const MAX_ACTS = 5_000_000;

/** A whole library as one file. */
export const librarySchema = z.strictObject({
  format: z.literal('hundredths-library'),
  formatVersion: z.literal(FORMAT_VERSION),
  documents: z.array(documentSchema).max(MAX_DOCUMENTS),
  acts: z.array(actSchema).max(MAX_ACTS).describe('Logs of rounds, in no particular order.'),
  notChosen: z
    .array(notChosenSchema)
    .max(MAX_DOCUMENTS)
    .optional()
    .describe('Sides that were not chosen where devices had disagreed. Absent when there is none.'),
  gone: z
    .array(goneSchema)
    .max(MAX_DOCUMENTS)
    .optional()
    .describe('What was removed for good. Absent when there is none.'),
});
export type Library = z.infer<typeof librarySchema>;
