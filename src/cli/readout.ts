// counterproof readout: the record that a wearable or a counter hands to its reader, decoded.
import { type Command, Option } from 'commander';
import type { ReadoutOptions } from './readout/answer.js';
import { EXIT_USAGE } from './run.js';

const EXAMPLES = `
A wearable's record has its shifts, and what every session of every counter had in them; a counter's
has the sessions that no wearable has acknowledged to their end, and what nobody claimed. Its sums are of
whole sessions, what the wearable had heard included: take the larger of the two, never add them.
A record is written by a step of the scenario such as {at: 15:00, readout: Edda}. --record reads one
that was saved instead, as bytes or as hexadecimal digits; a damaged one is refused. In --csv a name that begins with = + - or @
gets an apostrophe in front, so that no spreadsheet takes it for a formula.
Exit codes: 0 printed, 2 the input is wrong, or there is no such record.

Examples:
  $ counterproof readout scenarios/wearable-read-out.yaml --wearable Edda
  $ counterproof readout scenarios/wearable-read-out.yaml --wearable Edda --at 12:00 --csv
  $ counterproof readout scenarios/counter-of-a-lost-wearable.yaml --counter breaker --json
  $ counterproof trace day.yaml | jq -r 'select(.kind == "shown.record") | .bytes' | tail -1 > edda.hex
  $ counterproof readout day.yaml --wearable Edda --record edda.hex`;

/** Adds the command to the program. */
export function addReadout(program: Command): void {
  program
    .command('readout')
    .summary('the record of a wearable or of a counter, decoded')
    .description('Run a scenario and print what a wearable or a counter hands to its reader.')
    .argument('<file>', 'a scenario')
    .option('--wearable <worker>', 'whose wearable')
    .addOption(new Option('--counter <tool>', 'or the counter of which tool').conflicts('wearable'))
    .option('--row <row>', 'which row of its parameters, as check names it (default: the first)')
    .option('--what-if <name>', 'with this what-if applied')
    .option('--at <time>', 'the last record at or before this time of day (default: the last of the day)')
    .addOption(
      new Option('--record <file>', 'a saved record of that device, in place of a run; - for standard input').conflicts(
        ['row', 'whatIf', 'at'],
      ),
    )
    .option('--json', 'print JSON, after src/cli/schemas/readout.schema.json')
    .addOption(new Option('--csv', 'print CSV, one line a session').conflicts('json'))
    .addHelpText('after', EXAMPLES)
    .action(async (file: string, options: ReadoutOptions) => {
      const { answerReadout } = await import('./readout/answer.js');
      const answer = answerReadout(file, options);
      if ('refusal' in answer) {
        process.stderr.write(answer.refusal);
        process.exitCode = EXIT_USAGE;
      } else process.stdout.write(answer.answer);
    });
}
