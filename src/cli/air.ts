// counterproof air: what crosses the air on a scenario's day, as a capture file for Wireshark and its like.
import type { Command } from 'commander';
import { EXIT_USAGE } from './run.js';
import type { Pick } from './scenario/pick-run.js';

const EXAMPLES = `
Every frame that was sent is in it, byte for byte, also those that got lost and those of an attacker;
the comment of a frame says who sent it to whom, what it is, and what became of it. Its link type is
USER0, with 4 bytes before each frame: the identities of sender and receiver, 16 bits each. The day
lies on 1 January 1970, UTC. The repository's src/link/README.md has the wire format, and how a
capture is laid out.
Exit codes: 0 written, 2 the input is wrong, or the file cannot be written.

Examples:
  $ counterproof air scenarios/bad-air.yaml -o day.pcapng
  $ counterproof air scenarios/bad-air.yaml -o - | tshark -r - -T fields -e frame.time_epoch -e frame.comment`;

interface AirOptions extends Pick {
  readonly output: string;
  readonly force?: boolean;
}

/** Adds the command to the program. */
export function addAir(program: Command): void {
  program
    .command('air')
    .summary('the frames of a scenario, as a pcapng capture')
    .description('Run a scenario and write what crosses the air as a capture in pcapng.')
    .argument('<file>', 'a scenario')
    .requiredOption('-o, --output <file>', 'the file to write; - is standard output')
    .option('--row <row>', 'which row of its parameters, as check names it (default: the first)')
    .option('--what-if <name>', 'with this what-if applied')
    .option('--force', 'write over a file that is there already')
    .addHelpText('after', EXAMPLES)
    .action(async (file: string, options: AirOptions) => {
      const { answerAir } = await import('./air/answer.js');
      const answer = answerAir(file, options);
      if ('refusal' in answer) {
        process.stderr.write(answer.refusal);
        process.exitCode = EXIT_USAGE;
        return;
      }
      const { gathered, writeCapture } = await import('./air/write-capture.js');
      const { output, force = false } = options;
      if (output === '-') {
        for (const piece of gathered(answer.pieces)) process.stdout.write(piece);
        return;
      }
      const why = writeCapture(output, answer.pieces, force);
      if (why === null)
        process.stdout.write(`${output}: ${answer.frames} frames, ${answer.unheard} of them not heard\n`);
      else {
        process.stderr.write(`${output}: ${why}\n`);
        process.exitCode = EXIT_USAGE;
      }
    });
}
