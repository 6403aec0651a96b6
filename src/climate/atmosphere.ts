import { InputError } from '../../shared/errors.ts';
import { checkHumidity, checkTemperature } from './vapour.ts';

/** Constants of the standard atmosphere. Source: ISO 2533:1975. */
const SEA_LEVEL_PA = 101_325;
const SEA_LEVEL_K = 288.15;
const LAPSE_K_PER_M = 0.0065;
const GRAVITY = 9.80665;
const AIR_GAS_CONSTANT = 287.05287;

/**
 * Pressure of the standard atmosphere at a height, Pa. Weather moves the true one by a few per cent either way.
 *
 * Source: ISO 2533:1975, troposphere.
 *
 * @param elevationM Geopotential height, -500 to 9000.
 * @throws InputError outside that range.
 */
export function standardPressurePa(elevationM: number): number {
  if (!(elevationM >= -500 && elevationM <= 9000)) {
    throw new InputError(`elevationM: must lie from -500 to 9000, got ${elevationM}`);
  }
  const ratio = 1 - (LAPSE_K_PER_M * elevationM) / SEA_LEVEL_K;
  return SEA_LEVEL_PA * ratio ** (GRAVITY / (LAPSE_K_PER_M * AIR_GAS_CONSTANT));
}

/**
 * Density of moist air, kg/m3, within 0.02 % from 15 to 27 degrees.
 *
 * Source: simplified formula of OIML R 111-1:2004, E.3.
 *
 * @throws InputError for impossible air.
 */
export function airDensityKgPerM3(temperatureC: number, humidityPct: number, pressurePa: number): number {
  checkTemperature(temperatureC);
  checkHumidity(humidityPct);
  const moist = 0.009 * humidityPct * Math.exp(0.061 * temperatureC);
  return (0.34848 * (pressurePa / 100) - moist) / (273.15 + temperatureC);
}
