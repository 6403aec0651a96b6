/** Page and shared case from one origin by https. */
export function serveHome(what: {
  readonly folder: string;
  readonly home: string;
  readonly port: number;
  readonly isOnNetwork: boolean;
}): Promise<{
  readonly address: string;
  readonly caseAddress: string;
  readonly certificateAddress: string;
  readonly name: string;
  readonly password: string;
  close(): void;
}>;
