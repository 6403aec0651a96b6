// Fails when the built page outgrows its budget.
import { pageSizes } from './page-size.mjs';

let failed = false;
for (const { name, value, unit, limit } of pageSizes()) {
  console.log(`${name}: ${value.toFixed(1)} of ${limit} ${unit}`);
  if (value > limit) failed = true;
}
process.exit(failed ? 1 : 0);
