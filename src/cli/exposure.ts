// counterproof exposure: the daily exposure of a planned day, how it stands to a regime's levels, and the time left.
import type { Command } from 'commander';
import { REGIME_IDS } from '../exposure/regimes.js';
import { EXIT_USAGE } from './run.js';

const EXAMPLES = `
An operation is a magnitude from 0.1 to 50.0 m/s² in steps of 0.1, and a trigger time in h, min and s.
Exit codes: 0 answered, 2 an argument cannot be read.

Examples:
  $ counterproof exposure "4 m/s2 2h30m" "20 m/s2 15m"
  $ counterproof exposure "12.5 m/s² 45s" "3 m/s2 90min" --regime gb-2005
  $ counterproof exposure "5 m/s2 1.5h" --json`;

/** Adds the command to the program. */
export function addExposure(program: Command): void {
  program
    .command('exposure')
    .summary('daily exposure, points and time left of a planned day')
    .description(
      "Work out a day's vibration exposure: partial exposures, A(8), points, where they stand to the action and limit " +
        'values of a regime, and the time left on each tool.',
    )
    .argument('<operations...>', 'each in quotes: "4 m/s2 2h30m"')
    .option('--regime <id>', `exposure regime: ${REGIME_IDS.join(', ')}`, 'eu-2002-44')
    .option('--json', 'print JSON, after src/cli/schemas/exposure.schema.json')
    .addHelpText('after', EXAMPLES)
    .action(async (operations: string[], options: { regime: string; json?: boolean }) => {
      const { answerExposure } = await import('./exposure/answer.js');
      const answer = answerExposure(operations, options.regime, options.json === true);
      if ('mistakes' in answer) {
        process.stderr.write(answer.mistakes);
        process.exitCode = EXIT_USAGE;
      } else {
        process.stdout.write(answer.answer);
      }
    });
}
