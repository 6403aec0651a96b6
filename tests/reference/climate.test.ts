import { describe, expect, it } from 'vitest';
import checks from './data/check-values.json' with { type: 'json' };
import { airDensityKgPerM3, standardPressurePa } from '../../src/climate/atmosphere.ts';
import { woodMoisturePct } from '../../src/climate/moisture.ts';
import { cents, nearestNote, noteHz, pitchDriftCents } from '../../src/climate/pitch.ts';
import { airFiguresWithDoubt } from '../../src/climate/air-doubt.ts';
import { airChange, airFigures, preparations } from '../../src/climate/travel.ts';
import { normalPairs } from '../../src/numerics/normal-draws.ts';
import { seededRandom } from '../seeded-random.ts';
import {
  absoluteHumidityGPerM3,
  dewPointC,
  saturationPressurePa,
  vapourPressurePa,
} from '../../src/climate/vapour.ts';

const relative = (value: number, expected: number) => Math.abs(value / expected - 1);

describe('water vapour', () => {
  it('agrees with the ASHRAE 2017 saturation table (Fundamentals, chapter 1, table 3)', () => {
    // The table follows another formulation; the two differ by up to 0.02 % at 50 degrees.
    for (const [degrees, pascal] of Object.entries(checks.C_psychro.ashrae2017_table3_Pa)) {
      expect(relative(saturationPressurePa(Number(degrees)), pascal)).toBeLessThan(2e-4);
    }
  });

  it('agrees with IAPWS (Wagner & Pruss 2002) to the last printed digit', () => {
    for (const [degrees, row] of Object.entries(checks.C_psychro.es_Pa)) {
      expect(Math.abs(saturationPressurePa(Number(degrees)) - row.iapws_wagner_pruss)).toBeLessThan(6e-4);
    }
  });

  it('agrees with the Magnus formula of WMO-No. 8 on the dew point', () => {
    for (const { T, RH, Td } of checks.C_psychro.dew_point_C_magnus) {
      expect(Math.abs(dewPointC(T, RH) - Td)).toBeLessThan(6e-5);
    }
  });

  it('holds as much water as the ideal gas law says', () => {
    // The check values rest on the Magnus formula, up to 0.31 % under Wagner & Pruss.
    for (const { T, RH, AH } of checks.C_psychro['abs_humidity_g_m3_magnus_Rv461.5']) {
      expect(relative(absoluteHumidityGPerM3(T, RH), AH)).toBeLessThan(3.2e-3);
    }
  });

  it('refuses impossible air', () => {
    expect(() => vapourPressurePa(20, 101)).toThrow('humidityPct: must lie from 0 to 100, got 101');
    expect(() => saturationPressurePa(Number.NaN)).toThrow('temperatureC');
    expect(() => dewPointC(20, 0)).toThrow('no dew point');
  });
});

describe('air pressure and density', () => {
  it('agrees with the table of ISO 2533:1975', () => {
    for (const { H_geopotential_m: height, published_hPa: published } of checks.D_isa) {
      // Half of the table's last digit.
      expect(Math.abs(standardPressurePa(height) / 100 - published)).toBeLessThan(5e-4);
    }
    expect(() => standardPressurePa(20_000)).toThrow('elevationM');
  });

  it('agrees with CIPM-2007 (Picard et al. 2008) and IEC 61094-2 table F.1', () => {
    for (const { T, p_Pa: pressure, RH, cipm2007 } of checks.C_air_density) {
      // The simplified formula of OIML R 111-1 stays within 0.011 % of the full one at these points.
      expect(relative(airDensityKgPerM3(T, 100 * RH, pressure), cipm2007)).toBeLessThan(1.2e-4);
    }
  });
});

describe('moisture of wood', () => {
  it('agrees with the table of the Wood Handbook', () => {
    for (const { T_F, RH_pct: humidity, table_pct: printed } of checks.B_emc_wood.cells) {
      // The table is printed to a tenth; its own rounding and the formula differ by up to 0.06.
      expect(Math.abs(woodMoisturePct((T_F - 32) / 1.8, humidity) - printed)).toBeLessThan(0.061);
    }
  });
});

describe('pitch', () => {
  it('drifts with the square root of the temperature', () => {
    for (const { T, cents_rel_20C: expected } of checks.E_sound) {
      expect(Math.abs(pitchDriftCents(20, T) - expected)).toBeLessThan(6e-5);
    }
    expect(Math.abs(cents(440, 442) - checks.E_pitch.cents_442_vs_440)).toBeLessThan(1e-9);
  });

  it('names tempered notes at 440 and 442 Hz', () => {
    for (const [standard, notes] of Object.entries(checks.E_pitch.notes_Hz)) {
      for (const [note, hz] of Object.entries(notes)) {
        expect(Math.abs(noteHz(note, Number(standard))! - hz)).toBeLessThan(6e-5);
        expect(nearestNote(hz, Number(standard)).note).toBe(note);
      }
    }
    expect(noteHz('Bb5', 440)).toBeCloseTo(checks.E_pitch.Bb5_440, 6);
    expect(noteHz('C#6', 440)).toBeCloseTo(checks.E_pitch['C#6_440'], 6);
    expect(noteHz('H4', 440)).toBeUndefined();
  });
});

describe('travel', () => {
  const home = { temperatureC: 21, humidityPct: 60, elevationM: 100 };

  it('says which way reeds go in a dry high town, and to leave the knife', () => {
    const change = airChange(home, { temperatureC: 22, humidityPct: 25, elevationM: 1800 });
    expect(change).toMatchObject({ reeds: 'drier', height: 'higher', leaveTheKnife: true });
    expect(preparations(change).at(-1)).toContain('leave the knife');
  });

  it('has nothing to say where nothing changes', () => {
    const change = airChange(home, { ...home, humidityPct: 62 });
    expect(change).toMatchObject({ leaveTheKnife: false });
    expect(change.reeds).toBeUndefined();
    expect(preparations(change)).toEqual([]);
  });
});

describe('the doubt of what follows from the air', () => {
  const air = { temperatureC: 21, humidityPct: 45, elevationM: 500 };

  it('is what drawing the instruments’ errors at random gives (JCGM 101:2008, propagation of distributions)', () => {
    const draws = 4000;
    const errors = normalPairs(seededRandom(3), 4 * draws);
    const figures = Array.from({ length: draws }, (_, i) => {
      const [t, h, m, p] = [0, 1, 2, 3].map((k) => errors[4 * i + k]!) as [number, number, number, number];
      const found = airFigures({
        temperatureC: air.temperatureC + 0.4 * t,
        humidityPct: air.humidityPct + 2.5 * h,
        elevationM: air.elevationM + 10 * m,
      });
      const pressurePa = found.pressurePa + 1000 * p;
      return {
        ...found,
        pressurePa,
        airDensityKgPerM3: (found.airDensityKgPerM3 * pressurePa) / found.pressurePa,
      };
    });
    const spread = (values: readonly number[]) => {
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
    };
    const found = airFiguresWithDoubt(air);
    for (const name of [
      'vapourPressurePa',
      'absoluteHumidityGPerM3',
      'dewPointC',
      'pressurePa',
      'airDensityKgPerM3',
    ] as const) {
      // A standard deviation from 4000 draws is good to about 1.1 %; curvature adds little.
      expect(relative(found[name]!.u, spread(figures.map((one) => one[name]!)))).toBeLessThan(0.05);
      expect(found[name]!.value).toBe(airFigures(air)[name]);
    }
    const moisture = Math.hypot(spread(figures.map((one) => one.woodMoisturePct)), 0.5);
    expect(relative(found.woodMoisturePct!.u, moisture)).toBeLessThan(0.05);
  });

  it('is given at the ends of the scale', () => {
    expect(airFiguresWithDoubt({ ...air, humidityPct: 100 }).vapourPressurePa!.u).toBeGreaterThan(0);
    expect(airFiguresWithDoubt({ ...air, humidityPct: 0 }).dewPointC).toBeUndefined();
  });
});
