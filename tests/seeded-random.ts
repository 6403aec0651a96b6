export { seededRandom } from '../src/numerics/seeded-random.ts';
