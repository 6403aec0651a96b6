/** An error whose message is all that the person at the command line needs to read. */
export class PlainError extends Error {}

/** Runs a command, which may return the status to end with; a PlainError ends it with its sentence and 1, without a stack. */
export async function runPlainly(command) {
  try {
    process.exitCode = (await command()) ?? process.exitCode ?? 0;
  } catch (error) {
    if (!(error instanceof PlainError)) throw error;
    console.error(error.message);
    process.exitCode = 1;
  }
}
