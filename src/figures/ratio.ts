import { IllPosedError } from '../../shared/errors.ts';
import type { Functional, ReedModel } from '../surface/reed-model.ts';
import { estimateJointly } from './functional.ts';

/** A ratio of two figures of one reed with its standard uncertainty, both without unit. */
export interface Ratio {
  readonly value: number;
  readonly u: number;
}

/**
 * Ratio of two figures, their correlation allowed for.
 *
 * Source: law of propagation of uncertainty, GUM 5.2.
 *
 * @throws IllPosedError where the lower figure is not clearly different from zero.
 */
export function ratio(model: ReedModel, upper: Functional, lower: Functional): Ratio {
  const { valuesMm, covariance } = estimateJointly(model, [upper, lower]);
  const [a, b] = [valuesMm[0]!, valuesMm[1]!];
  if (Math.abs(b) < 3 * Math.sqrt(covariance[3]!))
    throw new IllPosedError('lower: must clearly differ from zero');
  const value = a / b;
  const variance = covariance[0]! - 2 * value * covariance[1]! + value * value * covariance[3]!;
  return { value, u: Math.sqrt(Math.max(0, variance)) / Math.abs(b) };
}
