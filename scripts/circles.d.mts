import type { Rule } from 'eslint';

export declare function importsOf(file: string, text: string): string[];
export declare function circleFrom(
  start: string,
  importsOfFile: (file: string) => readonly string[],
  done?: Set<string>,
): string[];
export declare const noCircle: Rule.RuleModule;
