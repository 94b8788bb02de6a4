// The long campaigns of the link: a million random and a million changed frames, a hundred thousand hostile ones, and a hundred
// thousand attacks in the middle of a pairing. Says what came of them; ends with exit code 1 where something went wrong.
import { CHIP, NO_KEYS } from '../../src/link/cipher.js';
import { type FuzzCounts, fuzz } from './fuzz.js';
import { attackPairings } from './middle.js';

const COUNTS: FuzzCounts = { random: 1_000_000, mutated: 1_000_000, hostile: 100_000 };
const ATTACKS = 100_000;
/** Ten are expected. More than 25 come by chance once in 50 000 seeds (Poisson). */
const MAX_SUCCESSES = 25;
const SEED = 20_260;
const TRIES = 2;

for (const [name, cipher] of Object.entries({ CHIP, NO_KEYS })) {
  const { faults, ...campaigns } = fuzz(cipher, COUNTS, SEED);
  for (const [campaign, outcomes] of Object.entries(campaigns)) {
    const told = Object.entries(outcomes).map(([outcome, count]) => `${outcome} ${count}`);
    print(`${name}, ${COUNTS[campaign as keyof FuzzCounts]} ${campaign}: ${told.join(', ')}`);
  }
  const wrongly = campaigns.random.read + campaigns.mutated.read;
  print(`${name}: ${faults.length} faults, ${wrongly} read that nobody sent\n${faults.join('\n')}`);
  if (faults.length > 0 || wrongly > 0) process.exitCode = 1;
}

const { attacks, successes } = attackPairings({ seed: SEED, attacks: ATTACKS, tries: TRIES });
const matching = successes.filter(({ onCounter, onWearable }) => onCounter === onWearable).length;
print(
  `${ATTACKS} attacks (${attacks['wearable first']} wearable first, ${attacks['counter first']} counter first): ` +
    `${successes.length} succeeded, ${matching} of them with the same digits on both, ` +
    `${successes.map((success) => String(success.onCounter).padStart(4, '0')).join(' ')}`,
);
if (successes.length > MAX_SUCCESSES || matching < successes.length) process.exitCode = 1;

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
