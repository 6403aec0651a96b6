/** The blocks of code of a page in their order. */
export function blocksOf(markdown: string): { readonly kind: string; readonly text: string }[];
