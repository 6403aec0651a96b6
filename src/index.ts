export type {
  Estimate,
  FitPass,
  FitReading,
  Functional,
  PassGeometry,
  ReedModel,
} from './surface/reed-model.ts';
