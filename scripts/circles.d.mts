export declare function importsOf(file: string, text: string): string[];
export declare function circleFrom(
  start: string,
  importsOfFile: (file: string) => readonly string[],
  done?: Set<string>,
): string[];
export declare function circleOf(file: string): string[];
