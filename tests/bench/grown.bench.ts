import { grownLibrary, photographs } from './grown.ts';

/** The short form: `npm run bench:library` takes the sizes to build for. */
export default async () => [...(await grownLibrary(500)), ...(await photographs(100))];
