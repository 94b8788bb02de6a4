// counterproof check: runs scenarios headless and judges them.
import type { Command } from 'commander';
import { EXIT_USAGE } from './run.js';

const EXAMPLES = `
Every row of every file is run, and every what-if. A run holds where all its expectations hold and no
invariant is broken; what does not hold is told with the events around it and the command that shows
it again. A note names each step whose power cut within a write or an erase, or whose attack in the
middle of a pairing, never came about.
Exit codes: 0 all hold, 1 some do not, 2 the input is wrong.

Examples:
  $ counterproof check scenarios/*.yaml
  $ counterproof check scenarios/lock-day.yaml --json`;

interface CheckOptions {
  readonly json?: boolean;
}

/** Adds the command to the program. */
export function addCheck(program: Command): void {
  program
    .command('check')
    .summary('scenarios run and judged, without a screen')
    .description('Run scenarios and judge them: their expectations, and what must hold in every run.')
    .argument('<files...>', 'scenarios')
    .option('--json', 'print JSON, after src/cli/schemas/check.schema.json')
    .addHelpText('after', EXAMPLES)
    .action(async (files: string[], { json = false }: CheckOptions) => {
      const { checkFiles } = await import('./check/check-files.js');
      const { textOf, summaryOf } = await import('./check/text.js');
      const { statusLineOn } = await import('./print/status-line.js');
      const progress = statusLineOn(process.stderr);
      const checked = [];
      for (const file of checkFiles(files)) {
        checked.push(file);
        if (files.length > 1) progress.show(`${checked.length} of ${files.length}  ${file.file}`);
        if (json) continue;
        progress.clear();
        (file.problems.length > 0 ? process.stderr : process.stdout).write(textOf(file));
      }
      progress.clear();
      if (json) {
        const { outputOf } = await import('./check/output.js');
        process.stdout.write(`${JSON.stringify(outputOf(checked), null, 2)}\n`);
      } else process.stdout.write(summaryOf(checked));
      if (checked.some(({ problems }) => problems.length > 0)) process.exitCode = EXIT_USAGE;
      else process.exitCode = checked.every(({ runs }) => runs.every(({ result }) => result.held)) ? 0 : 1;
    });
}
