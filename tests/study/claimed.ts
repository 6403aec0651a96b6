/** What a study claims, and whether it is so. */
export class Claims {
  private readonly failed: string[] = [];
  readonly log: (line: string) => void;

  constructor(log: (line: string) => void) {
    this.log = log;
  }

  equal(what: string, is: unknown, wanted: unknown): void {
    this.say(is === wanted, `${what}: ${String(is)}`, `, and not ${String(wanted)}`);
  }

  atMost(what: string, is: number, most: number, unit: string): void {
    this.say(is <= most, `${what}: ${is.toPrecision(3)} ${unit}`, `, more than ${most} ${unit}`);
  }

  /** @throws Error with every claim that does not hold. */
  settle(): void {
    if (this.failed.length > 0) throw new Error(`Not as claimed:\n${this.failed.join('\n')}`);
  }

  private say(holds: boolean, words: string, otherwise: string): void {
    const line = holds ? words : `${words}${otherwise}`;
    this.log(`  ${line}`);
    if (!holds) this.failed.push(line);
  }
}
