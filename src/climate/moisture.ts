import { checkHumidity, checkTemperature } from './vapour.ts';

const quadratic = (a: number, b: number, c: number, t: number) => a + b * t + c * t * t;

/**
 * Moisture content that WOOD settles to in this air, per cent of its dry mass. No isotherm of cane has been published
 * that could stand here, so it serves as a stand-in: its direction and rough size carry over, its digits do not.
 *
 * Source: Wood Handbook (Forest Products Laboratory, 2021), equation 4-5; fitted mostly to Sitka spruce, midway
 * between taking up and giving off; good to about half a point.
 *
 * @throws InputError for impossible air.
 */
export function woodMoisturePct(temperatureC: number, humidityPct: number): number {
  checkTemperature(temperatureC);
  checkHumidity(humidityPct);
  const h = humidityPct / 100;
  const w = quadratic(349, 1.29, 0.0135, temperatureC);
  const kh = quadratic(0.805, 0.000736, -0.00000273, temperatureC) * h;
  const k1 = quadratic(6.27, -0.00938, -0.000303, temperatureC);
  const k2 = quadratic(1.91, 0.0407, -0.000293, temperatureC);
  const first = k1 * kh;
  const second = k1 * k2 * kh * kh;
  return (1800 / w) * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second));
}
