export type {
  Estimate,
  FitPass,
  FitReading,
  Functional,
  PassGeometry,
  ReedModel,
} from './surface/reed-model.ts';
export { airChange, airFigures, preparations } from './climate/travel.ts';
export { cents, nearestNote, noteHz, pitchDriftCents } from './climate/pitch.ts';
export { controlChart } from './learning/control-chart.ts';
export { principalComponents } from './learning/principal-components.ts';
export { falseDiscoveryRates, rankCorrelation } from './learning/rank-correlation.ts';
export { endingsByCause, medianLifetime, survivalCurve } from './learning/survival.ts';
