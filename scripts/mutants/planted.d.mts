export interface PlantedFault {
  readonly fault: string;
  readonly file: string;
  readonly from: string;
  readonly to: string;
  readonly test: string;
}
export function plantedFaults(): PlantedFault[];
export function withFault(planted: PlantedFault): string;
