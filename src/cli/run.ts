// Runs one command line: loads what it needs, and turns every way of ending into an exit code.
//
//   0, 1  the command's own outcome; it sets process.exitCode
//   2     wrong usage or wrong input
//   70    a fault in counterproof itself
//   141   the reader of our output went away, as any program that a closed pipe ends
import { Command, CommanderError } from 'commander';
import { packageVersion } from './package-file.js';

export const EXIT_USAGE = 2;
const EXIT_FAULT = 70;
const EXIT_CLOSED_PIPE = 141;

/** URL of the folder that holds src and sim, as written or compiled. */
const OWN_CODE = new URL('../../', import.meta.url).href;

/** Each command by name, with a function that loads the one that adds it to the program. */
export type Commands = Readonly<Record<string, () => Promise<(program: Command) => void>>>;

/**
 * Carries out a command line and leaves the exit code in process.exitCode; never rejects.
 * @param words the command line without node and the script
 */
export async function run(commands: Commands, words: readonly string[]): Promise<void> {
  endQuietlyOnClosedPipe(process.stdout);
  endQuietlyOnClosedPipe(process.stderr);
  process.on('uncaughtException', fail);
  try {
    const program = await assemble(commands, words);
    const unknown = unknownCommand(commands, words);
    await program.parseAsync(unknown === null ? words : [unknown], { from: 'user' });
  } catch (error) {
    if (!(error instanceof CommanderError)) return fail(error);
    // Commander has said what is wrong; it calls every misuse 1, which here means that something did not hold.
    process.exitCode = error.exitCode === 0 ? 0 : EXIT_USAGE;
  }
}

/** A command that is named first is loaded alone; help and a misspelt name need them all. */
async function assemble(commands: Commands, words: readonly string[]): Promise<Command> {
  const program = new Command('counterproof')
    .description('A test bench for the devices that count hand-arm vibration.')
    .version(packageVersion(), '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .showHelpAfterError('(--help says how it is used)')
    .addHelpText(
      'after',
      '\nExamples:\n  $ counterproof replay scenarios/lock-day.yaml\n  $ counterproof check scenarios/*.yaml',
    )
    .exitOverride();
  const first = words[0] ?? '';
  const named = Object.hasOwn(commands, first) ? [first] : Object.keys(commands);
  for (const name of named) {
    const add = await commands[name]?.();
    add?.(program);
  }
  return program;
}

/** Asked to help with a command that it does not know, commander would print the whole help and call that a success. */
function unknownCommand(commands: Commands, words: readonly string[]): string | null {
  const name = (words[0] === 'help' ? words[1] : words[0]) ?? 'help';
  return name === 'help' || name.startsWith('-') || Object.hasOwn(commands, name) ? null : name;
}

function endQuietlyOnClosedPipe(stream: NodeJS.WriteStream): void {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(EXIT_CLOSED_PIPE);
    fail(error);
  });
}

/** Says in one line what went wrong and where, and ends at once: after a fault nothing printed could be trusted. */
function fail(error: unknown): never {
  const [what, ...frames] = String(error instanceof Error ? (error.stack ?? error) : error).split('\n');
  const where =
    frames.find((frame) => frame.split(OWN_CODE)[1]?.includes('node_modules/') === false) ?? 'place unknown';
  process.stderr.write(`counterproof: a fault in counterproof, not in your input: ${what} (${where.trim()})\n`);
  process.exit(EXIT_FAULT);
}
