// counterproof measure: recordings at a tool's handle, to the magnitude that a counter is set to.
import type { Command } from 'commander';
import { GREATEST_ACCELERATION, GREATEST_RATE_HZ } from '../vibration/recording/limits.js';
import type { MeasureOptions } from './measure/answer.js';
import { positive } from './positive.js';
import { EXIT_USAGE } from './run.js';

const EXAMPLES = `
Each file is a recording of one operation: CSV with a header (time in s or a given rate; x, y, z in m/s²
or g), or WAV with three channels. Several are averaged by energy. The sheet is a small YAML file:

  operator: Edda
  operation: cutting mortar joints
  material: granite
  accessory: flat chisel
  mounting: hose clamp
  place: front handle
  calibration: {reference: 10.0, before: 10.1, after: 9.9}
  chain uncertainty: 10%

The chain uncertainty is the expanded one (k = 2) of its certificate. No setting is recommended where
anything in the recordings, their number or the sheet leaves a doubt: fewer than three recordings of at
least 8 s and a minute in all, a spread (standard deviation over mean) above 30 %, a calibration check
more than 5 % off. --hand is repeated for each file.
Exit codes: 0 measured, 1 a recording has no value, 2 the input is wrong.

Examples:
  $ counterproof measure joint-1.csv joint-2.csv joint-3.csv --sheet joints.yaml
  $ counterproof measure --hand left=l1.wav --hand right=r1.wav --full-scale 5000
  $ counterproof measure joint-1.csv --rate 6400 --json`;

/** Adds the command to the program. */
export function addMeasure(program: Command): void {
  program
    .command('measure')
    .summary("recordings at a tool's handle, to the magnitude for its counter")
    .description('Weight recordings of acceleration and recommend the magnitude to set a counter to.')
    .argument('[files...]', 'recordings, CSV or WAV')
    .option('--hand <which=file>', 'a recording of one hand: left=FILE or right=FILE; again for each', collect, [])
    .option('--sheet <file>', 'the measuring sheet')
    .option('--rate <hz>', 'samples a second of a CSV without times', positive(GREATEST_RATE_HZ, 'Hz'))
    .option(
      '--full-scale <m/s²>',
      'what full scale of a WAV stands for, in m/s² and not in g',
      positive(GREATEST_ACCELERATION, 'm/s²'),
    )
    .option('--json', 'print JSON, after src/cli/schemas/measure.schema.json')
    .addHelpText('after', EXAMPLES)
    .action(async (files: string[], options: MeasureOptions) => {
      const { answerMeasure } = await import('./measure/answer.js');
      const { statusLineOn } = await import('./print/status-line.js');
      const progress = statusLineOn(process.stderr);
      const answer = await answerMeasure(files, options, (file, part) =>
        progress.show(`${Math.floor(100 * part)} % of ${file}`),
      );
      progress.clear();
      if ('refusal' in answer) {
        process.stderr.write(answer.refusal);
        process.exitCode = EXIT_USAGE;
      } else {
        process.stdout.write(answer.answer);
        process.exitCode = answer.allHaveValues ? 0 : 1;
      }
    });
}

function collect(given: string, before: readonly string[]): readonly string[] {
  return [...before, given];
}
