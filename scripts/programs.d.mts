type CommandLine = [program: string, ...args: string[]];
/** A tool of node_modules, run by this Node. */
export function toolCommand(name: string, args?: readonly string[], root?: string): CommandLine;
/** npm, as the script of its own that Node runs; undefined where there is none. */
export function npmCommand(
  args: readonly string[],
  where?: {
    readonly platform?: string;
    readonly execPath?: string;
    readonly npmPath?: string | undefined;
    readonly exists?: (path: string) => boolean;
  },
): CommandLine | undefined;
/** What opens an address in the browser; undefined in CI, and where there is no display. */
export function openerCommand(
  address: string,
  platform?: string,
  env?: Readonly<Record<string, string | undefined>>,
): CommandLine | undefined;
