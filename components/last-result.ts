/** A function that gives its last result again while it is asked with the same, so that what is made of it stays too. */
export function lastResult<Args extends readonly unknown[], Result>(
  make: (...args: Args) => Result,
): (...args: Args) => Result {
  let last: { readonly args: Args; readonly result: Result } | undefined;
  return (...args) => {
    if (!last || args.length !== last.args.length || args.some((arg, i) => arg !== last?.args[i]))
      last = { args, result: make(...args) };
    return last.result;
  };
}
