export interface PageSize {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly limit: number;
}
export function pageSizes(folder?: string): PageSize[];
