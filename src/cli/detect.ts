// counterproof detect: the counter's own detector on a recording of which the running times are known, and a setting for it.
import type { Command } from 'commander';
import { GREATEST_ACCELERATION, GREATEST_RATE_HZ } from '../vibration/recording/limits.js';
import type { DetectOptions } from './detect/answer.js';
import { positive } from './positive.js';
import { EXIT_USAGE } from './run.js';

const EXAMPLES = `
The truth is a file of marks, CSV with the header startS,stopS or JSON such as [{"startS": 1.5,
"stopS": 9}], or a trace of the bench, whose first moment is then the recording's. Seconds count from
the recording's first sample.
Exit codes: 0 answered, 1 the recording has no value, 2 the input is wrong.

Examples:
  $ counterproof detect joint-1.csv --truth joint-1-marks.csv
  $ counterproof detect joint-1.csv --truth joint-1-marks.csv --sweep --picture sweep.svg
  $ counterproof detect day.wav --full-scale 500 --truth day.ndjson --tool breaker --json`;

/** Adds the command to the program. */
export function addDetect(program: Command): void {
  program
    .command('detect')
    .summary("the counter's detector on a recording, and a setting for it")
    .description(
      "Run the counter's trigger detection over a recording with known running times: trigger-time error, missed and false " +
        'bursts, and the setting with the least error.',
    )
    .argument('<file>', 'a recording, CSV or WAV')
    .requiredOption('--truth <file>', 'when the tool ran')
    .option('--tool <tool>', 'whose runs are meant, of a trace')
    .option('--sweep', 'try levels and delays, and tell the best')
    .option('--picture <file>', 'draw the sweep as SVG into a new file')
    .option('--rate <hz>', 'samples a second of a CSV without times', positive(GREATEST_RATE_HZ, 'Hz'))
    .option(
      '--full-scale <m/s²>',
      'what full scale of a WAV stands for, in m/s² and not in g',
      positive(GREATEST_ACCELERATION, 'm/s²'),
    )
    .option('--json', 'print JSON, after src/cli/schemas/detect.schema.json')
    .addHelpText('after', EXAMPLES)
    .action(async (file: string, options: DetectOptions) => {
      const { answerDetect } = await import('./detect/answer.js');
      const answer = await answerDetect(file, options);
      if ('refusal' in answer) {
        process.stderr.write(answer.refusal);
        process.exitCode = EXIT_USAGE;
      } else {
        process.stdout.write(answer.answer);
        process.exitCode = answer.hasValue ? 0 : 1;
      }
    });
}
