// Sets the heart of generated reeds beside the tensor fit of R's mgcv: npm run study:tensor. Needs R with mgcv; writes the check
// values of tests/reference/data/tensor-heart.json.
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const { HEART, TENSOR_CASES, tensorBlades, ownSquaresMm2 } = await import(
  pathToFileURL(await bundleForNode('tests/study/tensor-study.ts')).href
);
const CALLS = {
  pSplines: 'te(y, u, bs="ps", m=list(c(2,2),c(2,2)), k=c(12,5))',
  cubic: 'te(y, u, bs="cr", k=c(14,5))',
};

/** Sums of squared errors of each call at the heart, blade by blade. */
function byMgcv(blades) {
  const rows = blades.flatMap(({ readings }, i) =>
    readings.map((r) => [i, r.fromTipMm, r.across, r.thicknessMm].join(',')),
  );
  const truth = blades.flatMap(({ truthMm }, i) => HEART.map(([y, u], k) => [i, y, u, truthMm[k]].join(',')));
  const script = `
    suppressMessages(library(mgcv))
    input <- readLines("stdin"); cut <- which(input == "")
    d <- read.csv(text=input[1:(cut-1)]); h <- read.csv(text=input[(cut+1):length(input)])
    for (i in unique(d$i)) {
      own <- d[d$i==i,]; at <- h[h$i==i,]
      s <- sapply(c(${Object.values(CALLS)
        .map((call) => `t ~ ${call}`)
        .join(', ')}), function(f) sum((predict(gam(f, method="REML", data=own), at) - at$t)^2))
      cat(s, "\\n")
    }
    cat(as.character(packageVersion("mgcv")), R.version$major, R.version$minor, "\\n")`;
  const input = ['i,y,u,t', ...rows, '', 'i,y,u,t', ...truth].join('\n');
  const { status, stdout, stderr } = spawnSync('Rscript', ['-e', script], { input, encoding: 'utf8' });
  if (status !== 0) throw new Error(`Rscript failed: ${stderr}`);
  const lines = stdout.trim().split('\n');
  const [mgcv, major, minor] = lines.pop().trim().split(' ');
  return {
    sums: lines.map((line) => line.trim().split(' ').map(Number)),
    software: `mgcv ${mgcv}, R ${major}.${minor}`,
  };
}

const blades = TENSOR_CASES.map(tensorBlades);
const { sums, software } = byMgcv(blades.flat());
const cases = TENSOR_CASES.map((settings, i) => {
  const squares = (pass, call) =>
    blades[i].reduce((sum, one, k) => sum + (one.pass === pass ? sums[4 * i + k][call] : 0), 0);
  const of = (call) => [0, 1].map((pass) => Number(squares(pass, call).toPrecision(8)));
  return { ...settings, pSplinesMm2: of(0), cubicMm2: of(1) };
});
const rmsUm = (total, n) => (1000 * Math.sqrt(total / (n * 2 * HEART.length))).toFixed(2);
const own = TENSOR_CASES.map(ownSquaresMm2);
const row = (which) => {
  const sum = (values) =>
    rmsUm(
      values.reduce((a, b) => a + b, 0),
      which.length,
    );
  const at = (pass) => ({
    [`pass ${pass}: bench`]: sum(which.map((i) => own[i][pass])),
    ...Object.fromEntries(
      ['pSplines', 'cubic'].map((name) => [name + pass, sum(which.map((i) => cases[i][`${name}Mm2`][pass]))]),
    ),
  });
  return { ...at(0), ...at(1) };
};
const every = [...cases.keys()];
const by = (key) =>
  [...new Set(cases.map((one) => one[key]))].map((value) => [
    value,
    row(every.filter((i) => cases[i][key] === value)),
  ]);
console.log('root mean square errors at the heart, µm');
console.table(Object.fromEntries([...by('family'), ...by('gauge'), ...by('handMm'), ['all', row(every)]]));
writeFileSync(
  'tests/reference/data/tensor-heart.json',
  `${JSON.stringify(
    {
      what: 'Sums of squared errors (mm2) at 81 places of the heart, both blades, of the first and of the second pass, by tensor smooths of that pass alone',
      source: 'generated reeds of tests/generator/family-reed.ts with these settings',
      software: `${software}; gam(t ~ s, method="REML") for each blade, s = ${Object.values(CALLS).join(' or ')}`,
      cases,
    },
    undefined,
    1,
  )}\n`,
);
