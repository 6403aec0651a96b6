import { torture } from './torture.ts';

/** `npm run torture -- [kills] [seed]` */
export async function main([kills = '300', seed = '1']: readonly string[]): Promise<number> {
  const started = Date.now();
  const outcome = await torture(Number(kills), Number(seed), (line) => console.log(line));
  const minutes = ((Date.now() - started) / 60_000).toFixed(1);
  console.log(
    `${outcome.kills} kills in ${minutes} min, ${outcome.inFlight} in the middle of a step; ${outcome.kept} steps called kept; ${outcome.broughtBack} times the engine had lost something; ${outcome.faults.length} faults`,
  );
  for (const fault of outcome.faults) console.error(fault);
  return outcome.faults.length === 0 ? 0 : 1;
}
