export declare function wilson(
  hits: number,
  count: number,
): { readonly share: number; readonly lower: number; readonly upper: number };
