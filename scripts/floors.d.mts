export declare const FLOORS: readonly (readonly string[])[];
