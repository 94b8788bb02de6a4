// counterproof replay: a scenario's day in the terminal, as an instructor shows it; a plain timeline where there is none.
import type { Command } from 'commander';
import { EXIT_USAGE } from './run.js';

const EXAMPLES = `
In a terminal the day plays and the keys are named at the foot; elsewhere (a file, a pipe) a plain
timeline is printed. For teaching and verification: it is no measuring instrument.
Exit codes: 0 shown, 2 the input is wrong.

Examples:
  $ counterproof replay scenarios/lock-day.yaml
  $ counterproof replay scenarios/lock-day.yaml --what-if "a lighter breaker"
  $ counterproof replay scenarios/lock-day.yaml > day.txt`;

interface ReplayOptions {
  readonly row?: string;
  readonly whatIf?: string;
}

/** Adds the command to the program. */
export function addReplay(program: Command): void {
  program
    .command('replay')
    .summary('a scenario replayed in the terminal')
    .description('Run a scenario and replay its day in the terminal, forwards and backwards.')
    .argument('<file>', 'a scenario')
    .option('--row <row>', 'which row of its parameters, as check names it (default: the first)')
    .option('--what-if <name>', 'with this what-if applied')
    .addHelpText('after', EXAMPLES)
    .action(async (file: string, options: ReplayOptions) => {
      const { pickRun } = await import('./scenario/pick-run.js');
      const picked = pickRun(file, options);
      if ('refusal' in picked) {
        process.stderr.write(picked.refusal);
        process.exitCode = EXIT_USAGE;
        return;
      }
      const { Bench } = await import('../bench/bench.js');
      const { run, scenario } = picked;
      const bench = Bench.open(run.day);
      bench.run();
      const title = run.whatIf === null ? scenario.title : `${scenario.title} (what if: ${run.whatIf})`;
      const shown = { title, events: bench.events, notes: run.notes };
      if (process.stdout.isTTY && process.stdin.isTTY) {
        // React's production build draws a frame in a fraction of the time.
        process.env.NODE_ENV ??= 'production';
        // https://no-color.org, which the colour library of ink does not look at.
        if (process.env.NO_COLOR) process.env.FORCE_COLOR = '0';
        const { replayInTerminal } = await import('../show/replay/terminal.js');
        await replayInTerminal(shown);
      } else {
        const { plainTimeline } = await import('../show/timeline.js');
        process.stdout.write(plainTimeline(shown));
      }
    });
}
