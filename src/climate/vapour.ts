import { InputError } from '../../shared/errors.ts';

const ZERO_C_IN_K = 273.15;
/** Specific gas constant of water vapour, J/(kg K). */
const VAPOUR_GAS_CONSTANT = 461.5;

/** Critical point and coefficients of water. Source: Wagner & Pruss 2002, as adopted by IAPWS. */
const CRITICAL_K = 647.096;
const CRITICAL_PA = 22.064e6;
const TERMS: readonly (readonly [coefficient: number, exponent: number])[] = [
  [-7.85951783, 1],
  [1.84408259, 1.5],
  [-11.7866497, 3],
  [22.6807411, 3.5],
  [-15.9618719, 4],
  [1.80122502, 7.5],
];

/** @throws InputError outside 0 to 100 %. */
export function checkHumidity(humidityPct: number): void {
  if (!(humidityPct >= 0 && humidityPct <= 100)) {
    throw new InputError(`humidityPct: must lie from 0 to 100, got ${humidityPct}`);
  }
}

/** @throws InputError outside -40 to 60 degrees. */
export function checkTemperature(temperatureC: number): void {
  if (!(temperatureC >= -40 && temperatureC <= 60)) {
    throw new InputError(`temperatureC: must lie from -40 to 60, got ${temperatureC}`);
  }
}

/**
 * Pressure of saturated water vapour over liquid water, Pa.
 *
 * Source: Wagner & Pruss 2002 (IAPWS); meant for 0 degrees and above, continued below for want of ice indoors.
 *
 * @param temperatureC -40 to 60.
 * @throws InputError outside that range.
 */
export function saturationPressurePa(temperatureC: number): number {
  checkTemperature(temperatureC);
  const kelvin = temperatureC + ZERO_C_IN_K;
  const tau = 1 - kelvin / CRITICAL_K;
  const sum = TERMS.reduce((total, [coefficient, exponent]) => total + coefficient * tau ** exponent, 0);
  return CRITICAL_PA * Math.exp((CRITICAL_K / kelvin) * sum);
}

/** Pressure of the water vapour in the air, Pa. @throws InputError for impossible air. */
export function vapourPressurePa(temperatureC: number, humidityPct: number): number {
  checkHumidity(humidityPct);
  return (humidityPct / 100) * saturationPressurePa(temperatureC);
}

/** Water in a cubic metre of air, g. Source: ideal gas law. @throws InputError for impossible air. */
export function absoluteHumidityGPerM3(temperatureC: number, humidityPct: number): number {
  const kelvin = temperatureC + ZERO_C_IN_K;
  return (1000 * vapourPressurePa(temperatureC, humidityPct)) / (VAPOUR_GAS_CONSTANT * kelvin);
}

/**
 * Temperature at which the air would be saturated.
 *
 * Source: Magnus formula of WMO-No. 8, Annex 4.B, inverted; within 0.05 K of Wagner & Pruss from 0 to 35 degrees.
 *
 * @param humidityPct Above 0.
 * @throws InputError for impossible or entirely dry air.
 */
export function dewPointC(temperatureC: number, humidityPct: number): number {
  checkTemperature(temperatureC);
  checkHumidity(humidityPct);
  if (humidityPct === 0) throw new InputError('humidityPct: entirely dry air has no dew point, got 0');
  const gamma = Math.log(humidityPct / 100) + (17.62 * temperatureC) / (243.12 + temperatureC);
  return (243.12 * gamma) / (17.62 - gamma);
}
