export declare const FLOORS: readonly (readonly string[])[];
export declare function refusal(file: string, source: string): string | undefined;
