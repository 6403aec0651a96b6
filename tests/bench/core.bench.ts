import { spawnSync } from 'node:child_process';
import { LONG_SCRAPE } from '../../src/blade/starting-styles.ts';
import { placeZones } from '../../src/blade/zones.ts';
import { centreLine, crossing } from '../../src/figures/crossing.ts';
import { mapGrid, thicknessMap } from '../../src/figures/surface-map.ts';
import { zoneFigures } from '../../src/figures/zone-figures.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import { fitPlainly } from '../../src/surface/plain-model.ts';
import type { FitPass, ReedModel } from '../../src/surface/reed-model.ts';
import { readSample } from '../read-sample.ts';
import { medianMs, pacedMs } from './clock.ts';

const CROSSINGS_MM = [0.2, 0.3, 0.4];

/** Zone means, quadrants, contrasts and crossings of a pass. */
function allFigures(model: ReedModel, pass: number): number {
  const { overallLengthMm } = model.passes[pass]!;
  const frame = { lengths: LONG_SCRAPE.lengths, overallLengthMm };
  const zones = placeZones(LONG_SCRAPE, frame, overallLengthMm).map((zone) => zoneFigures(model, pass, zone));
  const crossings = CROSSINGS_MM.map((thickness) => crossing(model, pass, centreLine(model), thickness));
  return zones.length + crossings.length;
}

/**
 * Median time of the same two fits by mgcv with its default matrix library, ms: the process's own or what passes,
 * whichever is less. Undefined where R or mgcv is missing.
 */
function mgcvMs(pass: FitPass): number | undefined {
  const rows = pass.readings.map((r) => [r.blade, r.fromTipMm, r.across, r.thicknessMm].join(','));
  const script = `
    suppressMessages(library(mgcv))
    d <- read.csv(text="blade,y,u,t\n${rows.join('\n')}")
    knots <- list(y=${pass.bladeLengthMm}/9*(-3:12), u=-1+(-3:5))
    one <- function(b) gam(t ~ te(y, u, bs="ps", m=list(c(2,2),c(2,2)), k=c(12,5), np=FALSE),
      knots=knots, method="REML", data=d[d$blade==b,])
    both <- function() { one("A"); one("B") }
    invisible(both())
    spent <- function(i) { s <- system.time(both()); min(s[["elapsed"]], s[["user.self"]] + s[["sys.self"]]) }
    cat(median(sapply(1:9, spent)) * 1000)`;
  const { status, stdout } = spawnSync('Rscript', ['-e', script], { encoding: 'utf8' });
  return status === 0 ? Number(stdout) : undefined;
}

export default async function run() {
  const { passes } = readSample('plain');
  const pass = passes[1]!;
  const plainMs = medianMs(() => allFigures(fitPlainly(pass), 0), 300);
  const model = fitPlainly(pass);
  const joint = fitReed(passes);
  const grid = mapGrid(pass.bladeLengthMm, 120, 60);
  const last = passes.length - 1;
  const mgcv = mgcvMs(pass);
  return [
    {
      name: 'plain model, both blades of a pass, readings to all figures',
      value: pacedMs(() => allFigures(fitPlainly(pass), 0), 300),
      unit: 'ms',
      limit: 4,
      note: `${pass.readings.length} readings`,
    },
    {
      name: 'values and standard errors, plain model',
      value: pacedMs(() => thicknessMap(model, 'A', 0, grid), 20),
      unit: 'ms',
      limit: 8,
      note: '120 x 60',
    },
    {
      name: 'values and standard errors, joint model, last pass',
      value: pacedMs(() => thicknessMap(joint, 'A', last, grid), 20),
      unit: 'ms',
      limit: 8,
      note: `120 x 60, ${passes.length} passes`,
    },
    mgcv === undefined
      ? { name: 'mgcv', value: 0, unit: 'ms', note: 'not compared: R with mgcv is missing' }
      : {
          name: 'share of the time of the same fits by mgcv',
          value: plainMs / mgcv,
          unit: '',
          limit: 1 / 15,
          note: `mgcv ${mgcv.toFixed(0)} ms`,
        },
  ];
}
