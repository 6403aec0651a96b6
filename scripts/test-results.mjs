// What the runners of tests wrote down.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { relative } from 'node:path';

/** Where each runner leaves its results, in the form of Vitest's JSON. */
export const RESULTS = 'node_modules/.cache/hundredths/results';

const failuresOf = ({ name, assertionResults, message }) => {
  const file = relative('.', name);
  const failed = assertionResults.filter(({ status }) => status === 'failed');
  // A file that fails as a whole has no test to name.
  if (failed.length === 0) return message ? [`${file}: ${message.split('\n')[0]}`] : [];
  return failed.map(({ fullName }) => `${file}: ${fullName.trim()}`);
};

/** @returns {{passed: number, failures: string[]}} how many tests passed, and the name of each that failed */
export function readResults(folder = RESULTS) {
  const results = (existsSync(folder) ? readdirSync(folder) : []).map((name) =>
    JSON.parse(readFileSync(`${folder}/${name}`, 'utf8')),
  );
  return {
    passed: results.reduce((total, { numPassedTests }) => total + numPassedTests, 0),
    failures: results.flatMap(({ testResults }) =>
      testResults.filter(({ status }) => status === 'failed').flatMap(failuresOf),
    ),
  };
}
