// npm run fuzz: the long campaigns of the link, against the codec by itself and against real devices: millions of random and of
// changed frames, hundreds of thousands of hostile ones, attacks in the middle of pairings, and whole days that are said
// again. Says what came of them; ends with exit code 1 where something went wrong. Takes about six minutes of a processor.
import { CHIP, NO_KEYS } from '../../src/link/cipher.js';
import { ORDERS, replayDay } from '../bench/replayed-day.js';
import { read, SHIPPED } from '../scenarios/shipped.js';
import { fuzzDevices } from './device-fuzz.js';
import { type FuzzCounts, fuzz } from './fuzz.js';
import { attackPairings } from './middle.js';

const COUNTS: FuzzCounts = { random: 1_000_000, mutated: 1_000_000, hostile: 100_000 };
/** For each of the two devices. */
const AT_EACH: FuzzCounts = { random: 500_000, mutated: 500_000, hostile: 50_000 };
const ATTACKS = 100_000;
/** Ten are expected. More than 25 come by chance once in 50 000 seeds (Poisson). */
const MAX_SUCCESSES = 25;
const SEED = 20_260;
const TRIES = 2;
const REPLAYED = ['lock-day.yaml', 'shared-counter.yaml'];

for (const [name, cipher] of Object.entries({ CHIP, NO_KEYS })) {
  const { faults, ...campaigns } = fuzz(cipher, COUNTS, SEED);
  for (const [campaign, outcomes] of Object.entries(campaigns)) {
    print(`codec, ${name}, ${COUNTS[campaign as keyof FuzzCounts]} ${campaign}: ${told(outcomes)}`);
  }
  const wrongly = campaigns.random.read + campaigns.mutated.read;
  print(`codec, ${name}: ${faults.length} faults, ${wrongly} read that nobody sent`);
  judge(faults.length === 0 && wrongly === 0, faults);
}

for (const [name, cipher] of Object.entries({ CHIP, NO_KEYS })) {
  const { outcomes, effects, faults } = fuzzDevices(cipher, AT_EACH, SEED);
  for (const [device, campaigns] of Object.entries(outcomes)) {
    for (const [campaign, of] of Object.entries(campaigns)) {
      print(`${device}, ${name}, ${AT_EACH[campaign as keyof FuzzCounts]} ${campaign}: ${told(of)}`);
    }
  }
  print(`devices, ${name}: ${faults.length} faults; meanwhile ${told(effects)}`);
  judge(faults.length === 0, faults);
}

for (const file of REPLAYED) {
  const { day } = read(SHIPPED.find(({ name }) => name === file)!.text, file).runs[0]!;
  for (const how of ORDERS) {
    const { frames, delivered, taken, refused, more, outcome, untouched } = replayDay(day, how);
    const when = `${how.shuffled ? 'shuffled' : 'in order'}${how.restarted ? ' after a power failure' : ''}`;
    const fates = told({ 'acknowledged again': taken, ...refused });
    print(`${file}, ${frames} frames, said again to both ends ${when}, ${delivered} in all: ${fates}`);
    judge(more.length === 0 && JSON.stringify(outcome) === JSON.stringify(untouched), more);
  }
}

const { attacks, successes } = attackPairings({ seed: SEED, attacks: ATTACKS, tries: TRIES });
const matching = successes.filter(({ onCounter, onWearable }) => onCounter === onWearable).length;
print(
  `${ATTACKS} attacks (${attacks['wearable first']} wearable first, ${attacks['counter first']} counter first): ` +
    `${successes.length} succeeded, ${matching} of them with the same digits on both, ` +
    `${successes.map((success) => String(success.onCounter).padStart(4, '0')).join(' ')}`,
);
judge(successes.length <= MAX_SUCCESSES && matching === successes.length, []);

function told(counts: Readonly<Record<string, number>>): string {
  const some = Object.entries(counts).filter(([, count]) => count > 0);
  return some.map(([what, count]) => `${what} ${count}`).join(', ');
}

function judge(good: boolean, faults: readonly string[]): void {
  for (const fault of faults) print(`broken: ${fault}`);
  if (!good) process.exitCode = 1;
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
