export interface NoticedPackage {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly texts: readonly string[];
}
/** Every package that the page may be built from, by the lock file, and that carries the text of its licence. */
export function noticedPackages(): NoticedPackage[];
/** @throws {Error} naming the packages among the modules of a build that have no notice */
export function checkNoticed(moduleIds: readonly string[], packages?: readonly NoticedPackage[]): void;
/** The page of notices. */
export function noticesPage(packages?: readonly NoticedPackage[]): string;
