export { assembleReed, type AssembledReed, type ReedDocuments } from './reed/assemble.ts';
export { faultSearch, findFaults } from './faults/find-faults.ts';
export { judgedPasses } from './faults/judged-passes.ts';
export type { Fault, PassFaults, PlaceToReadAgain } from './faults/fault.ts';
export { sayFault, sayReadAgain, sayRemedy } from './answers/fault-words.ts';
export { fitReed, type FitOptions } from './surface/fit-reed.ts';
export { addReading } from './surface/add-reading.ts';
export type { FittedReed } from './surface/fitted-reed.ts';
export { reportReed, type ReedReport, type ReportOptions } from './report/reed-report.ts';
export { readCsv } from './exchange/csv/read-csv.ts';
export type { CsvOptions, CsvOutcome } from './exchange/csv/read-csv.ts';
export type { CsvFile, CsvFileFacts } from './exchange/csv/read-file.ts';
export type { CsvAnswers, CsvQuestion } from './exchange/csv/questions.ts';
export type { PassDraft, ReedDraft } from './exchange/csv/drafts.ts';
export type { FileProblem } from './exchange/file-problem.ts';
export {
  bladeSolid,
  type BladeGrid,
  type Solid,
  type SolidOptions,
} from './exchange/surfaces/blade-solid.ts';
export { bladeGrids, bladeSolids } from './answers/surface-files.ts';
export { writeGlb, type NamedSolid } from './exchange/surfaces/glb.ts';
export { writeStl } from './exchange/surfaces/stl.ts';
export { rasterOf, writeX3p, type Raster } from './exchange/surfaces/x3p.ts';
export { readPaste, type PasteAnswers, type PasteOutcome } from './exchange/paste.ts';
export { writeLongCsv } from './exchange/csv/write-csv.ts';
export { writeSheetCsv } from './exchange/csv/write-sheet.ts';
export type {
  Estimate,
  FitPass,
  FitReading,
  Functional,
  PassGeometry,
  ReedModel,
} from './surface/reed-model.ts';
export type { DocumentOf, Draft, NewDraft, Step } from './ledger/drafts.ts';
export type { Conflict, StorageTrouble } from './ledger/errors.ts';
export type { Health } from './ledger/health.ts';
export type { History, HistoryState } from './ledger/history.ts';
export type { Kept, Ledger, LedgerOptions } from './ledger/ledger.ts';
export type { ProgressOptions } from './ledger/patience.ts';
export type { Holdings, MergeReport } from './ledger/merge.ts';
export type { AboutPhoto } from './ledger/photos.ts';
export type { Incoming, WholeLibrary } from './ledger/whole-library.ts';
export type { ChangeListener, LedgerChange } from './ledger/notices.ts';
export type { SetAside } from './ledger/rows.ts';
export type { Siblings } from './ledger/sides.ts';
export type { Snapshot } from './ledger/snapshot.ts';
export type { ActDraft, SeenActs } from './ledger/store.ts';
export { airChange, airFigures, preparations } from './climate/travel.ts';
export { cents, nearestNote, noteHz, pitchDriftCents } from './climate/pitch.ts';
export { controlChart } from './learning/control-chart.ts';
export { principalComponents } from './learning/principal-components.ts';
export { falseDiscoveryRates, rankCorrelation } from './learning/rank-correlation.ts';
export { endingsByCause, medianInterval, medianLifetime, survivalCurve } from './learning/survival.ts';
export { ConflictError, StorageError } from './ledger/errors.ts';
export { readBackup } from './ledger/bundle/read.ts';
export { writeBundle } from './ledger/bundle/write.ts';
export { libraryText, readLibraryText } from './ledger/library-file.ts';
export { openHistory } from './ledger/history.ts';
export { openLedger } from './ledger/ledger.ts';
export { openLibrary, type OpenedLibrary, type SecondCopy } from './ledger/open-library.ts';
export { judgeGauge } from './gauge/judge-gauge.ts';
export { believableChangeMm, scatterAtMm } from './gauge/believable-change.ts';
export { calibrationLine, checkHistory, lineAt } from './gauge/calibration.ts';
export { correctReadings, sharedGaugeError } from './gauge/correct-readings.ts';
export { repeatability } from './gauge/repeatability.ts';
export { lowestOfRepeats, meanOfRepeats } from './gauge/repeats.ts';
export { fitStraightLine, invert, predict } from './gauge/straight-line.ts';
export { combine, rectangularU, resolutionU } from './gauge/uncertainty-budget.ts';
export { oneFactorVariances, twoFactorVariances } from './gauge/variance-components.ts';
export { benchReed, settled, type BenchedReed, type ReedAtPass } from './answers/benched-reed.ts';
export type { ReedFigures } from './answers/record/record.ts';
export { figuresOf, zoneMean } from './answers/record/reed-figures.ts';
export type { Figure, FigureTable } from './figures/figure.ts';
export { evenness, sayEvenness } from './answers/even.ts';
export { sayTakenOff } from './answers/say-taken-off.ts';
export { takenOff } from './answers/taken-off.ts';
export { outsideMeant, type OutsideMeant } from './answers/outside-meant.ts';
export { pictureWords } from './answers/picture-words.ts';
export { planTowards } from './plan/make-plan.ts';
export { sayStep, stepInWords } from './plan/say-step.ts';
export { sayThereNow } from './answers/there-now.ts';
export { previewClip, type ClipPreview } from './plan/clip-preview.ts';
export { closestVersion, versionAt } from './plan/closest-version.ts';
export { compare, type Compared } from './plan/compare.ts';
export { handTarget, usualTarget } from './plan/hand-target.ts';
export { makeTarget, type Followed } from './plan/make-target.ts';
export { sayCompared, sayDistance } from './plan/say-compared.ts';
export { commonFactor, inOwnCane, inOwnScale, type ComparisonMode } from './plan/ways.ts';
export { gougeOf, originalMm, USUAL_GOUGE, type Gouge } from './blade/original-cane.ts';
export { excessOver } from './plan/excess.ts';
export { STARTING_HABITS } from './plan/habits.ts';
export { knifeYield, strokesFor } from './plan/knife-yield.ts';
export { meantAndDone } from './plan/meant-and-done.ts';
export { lessonOf, type Lesson } from './plan/lesson.ts';
export { nextStrokes } from './plan/next-strokes.ts';
export {
  readablePlaces,
  whereToRead,
  type ReadingPlace,
  type WorthReading,
} from './figures/where-to-read.ts';
export { readNext, type ReadNext } from './answers/read-next.ts';
export { hybridTarget, offsetTarget, targetFromReed, targetFromSeveral } from './plan/target.ts';
export { interpolateGrid } from './surface/interpolating-surface.ts';
export {
  fitSurface,
  fitSurfaceByGcv,
  fitSurfaceByReml,
  type SurfaceFit,
} from './surface/penalised-surface.ts';
export type { Smoothing, SurfaceData } from './surface/surface-problem.ts';
export { fitPlainly } from './surface/plain-model.ts';
export { believableAtMm, believableMap, believableOverMm } from './figures/believable-map.ts';
export { isBeyond, reachOf, type Reach } from './figures/reach.ts';
export { curvatureAt, slopeAt, type Direction } from './figures/slopes.ts';
export { countFor, type GaugeCount } from './round/gauge-count.ts';
export { typedReading, type Typed } from './round/typed-reading.ts';
export { readingText } from './round/reading-text.ts';
export { placeKey, placeWords } from './round/place-words.ts';
export { inOrder, type Going } from './round/station-order.ts';
export { acrossFromMm, roundPlans, stationsOf, type RoundPlan, type Scrape } from './round/round-plans.ts';
export { expectationAt } from './answers/expectation.ts';
export { foldRound, type RoundState, type StationState } from './round/fold-round.ts';
export { undoStacks, withdrawals } from './round/undo.ts';
export { passFromRound } from './round/round-to-pass.ts';
export { oddness, oddSentence, type Expectation, type Oddness } from './round/oddness.ts';
export { olderReadings, type OlderReading } from './round/older-readings.ts';
export { doubtfulPlaces } from './round/doubtful-places.ts';
export { rowsOf, stationsOfRows, type GridRow } from './round/grid-rows.ts';
export { offeredPlans, type OfferedPlan } from './round/own-plans.ts';
export { positionsText, typedPositions } from './round/positions-text.ts';
export { reedOfLastTime } from './reed/last-time.ts';
export { liveFigures, liveReed, withOneMore, type LiveFigures, type LiveReed } from './answers/live-reed.ts';
export { heldValue } from './gauge-lines/held-value.ts';
export { lineSplitter } from './gauge-lines/line-splitter.ts';
export { readingsOfSample, readLine } from './gauge-lines/line-format.ts';
export { holdLowest } from './gauge-lines/hold-lowest.ts';
export { gougeCurve, type GougeCurve } from './cane/gouge-curve.ts';
export { originalCane, type OriginalCane } from './cane/original-cane.ts';
export { pieceEvenness } from './cane/evenness.ts';
export { compareGouge, STARTING_GOUGE } from './cane/wished-gouge.ts';
export { gougeDrift } from './cane/gouge-drift.ts';
export { lotYield } from './cane/lot-yield.ts';
export { compareShapes, planformOf, shapeFigures } from './cane/shapes.ts';
export { diameterFromThreePoints, tubeDiameter } from './cane/tube-diameter.ts';
export { tieGeometry } from './cane/tie-geometry.ts';
export { crowFrom, type Crow, type NoCrow } from './crow/crow.ts';
export { makeEar, type Heard } from './crow/ear.ts';
export { airFiguresWithDoubt } from './climate/air-doubt.ts';
export { airLog } from './climate/air-log.ts';
export { inRotation, type InRotation } from './rotation/in-rotation.ts';
export { lasting, type Lasting } from './rotation/lifetimes.ts';
export { adviceFor, type Advice } from './rotation/suggest.ts';
export { historyOf, type Happening } from './rotation/history.ts';
export { commonTraits, type StyleTraits } from './traits/common-traits.ts';
export { summarise, tellingPass, type ReedSummary } from './traits/reed-summary.ts';
export { handPortrait, sidesByLot } from './traits/portrait.ts';
export { learnedFloors } from './traits/learned-floors.ts';
export { timeSpent } from './traits/time-spent.ts';
export { partReversal } from './gauge/reversal.ts';
