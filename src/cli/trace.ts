// counterproof trace: the trace of a scenario as NDJSON, whole or a stretch of it, or its hashes.
import type { Command } from 'commander';
import { EXIT_USAGE } from './run.js';
import type { TraceOptions } from './trace/answer.js';

const EXAMPLES = `
Each line is one event with sorted keys. The hash "whole" is the SHA-256 of the whole text, so that
sha256sum gives the same; "outward" leaves out inner. events and the numbering, which another
implementation of the counter need not share.
Exit codes: 0 printed, 2 the input is wrong.

Examples:
  $ counterproof trace scenarios/lock-day.yaml --hash
  $ counterproof trace scenarios/lock-day.yaml --from 09:00 --until 09:05
  $ counterproof trace scenarios/lock-day.yaml | jq 'select(.kind == "shown.alert")'`;

/** Adds the command to the program. */
export function addTrace(program: Command): void {
  program
    .command('trace')
    .summary('the trace of a scenario, line by line, or its hashes')
    .description('Run a scenario and print its trace: canonical JSON, one event a line.')
    .argument('<file>', 'a scenario')
    .option('--row <row>', 'which row of its parameters, as check names it (default: the first)')
    .option('--what-if <name>', 'with this what-if applied')
    .option('--from <time>', 'only events from this time of day on: 09:00, 09:00:30, day 2 06:00')
    .option('--until <time>', 'only events before this time of day')
    .option('--hash', 'print the two hashes of the whole trace instead')
    .addHelpText('after', EXAMPLES)
    .action(async (file: string, options: TraceOptions) => {
      const { answerTrace } = await import('./trace/answer.js');
      const answer = answerTrace(file, options);
      if ('refusal' in answer) {
        process.stderr.write(answer.refusal);
        process.exitCode = EXIT_USAGE;
      } else {
        for (const piece of answer.pieces) process.stdout.write(piece);
      }
    });
}
