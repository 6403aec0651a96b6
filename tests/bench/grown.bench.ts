import { grownLibrary } from './grown.ts';

/** The short form: `npm run bench:library` takes the size to build for. */
export default () => grownLibrary(500);
