// air: what happens from now on to the frames between one counter and one wearable. What a step does not name is as in
// clear air; loss 0/1 alone makes it clear again.
import type { AirFault, Ratio } from '../day.js';
import { choice } from '../fields/choice.js';
import { duration, formatDuration, noDuration, parseDuration } from '../fields/duration.js';
import { type Field, type Found, field, refusal } from '../fields/field.js';
import { ratio } from '../fields/ratio.js';
import type { Problems } from '../problems.js';
import { flowList, flowText } from '../yaml/flow.js';
import { fault } from './fault.js';
import { link } from './link.js';

/** Longer than this no frame is on its way. */
const MAX_DELAY_MS = 600_000;
const MAX_DELAY = formatDuration(MAX_DELAY_MS);

/** As in the clear air of sim/radio, which this folder may not import; a test holds the two together. */
export const CLEAR_DELAY_MS: readonly [number, number] = [2, 12];

const NEVER: Ratio = { num: 0, den: 1 };
const ALWAYS: Ratio = { num: 1, den: 1 };

const DELAY = 'a delay such as 200ms, or [0ms, 2s] for one drawn anew for each frame';

const delay: Field<readonly [lowMs: number, highMs: number]> = field(
  { anyOf: [{ type: 'string' }, { type: 'array', items: { type: 'string' } }], description: DELAY },
  (node, { refuse }) => {
    const [low, high, ...others] = node.kind === 'list' ? node.items : [node, node];
    const [lowMs, highMs] = [low, high].map((end) => (end?.kind === 'scalar' ? parseDuration(end.text) : null));
    if (node.kind === 'scalar' && lowMs === null) refuse(node, noDuration(node.text, DELAY));
    else if (lowMs == null || highMs == null || others.length > 0) refuse(node, refusal('this is no delay', DELAY));
    else if (lowMs <= highMs && highMs <= MAX_DELAY_MS) return [lowMs, highMs];
    else refuse(node, refusal('this delay is not possible', `${DELAY}, the shorter first, at most ${MAX_DELAY}`));
    return null;
  },
);

export const air = fault(
  'air',
  {
    air: link,
    out: choice(['yes']).optional(),
    loss: ratio.optional(),
    duplicate: ratio.optional(),
    errors: ratio.optional(),
    delay: delay.optional(),
    for: duration().optional(),
  },
  {
    event: (step, { problems }) => {
      reportEmpty(step, problems);
      const [tool, worker] = step.air.value;
      return {
        do: 'air',
        tool,
        worker,
        loss: step.out === undefined ? (step.loss?.value ?? NEVER) : ALWAYS,
        duplicate: step.duplicate?.value ?? NEVER,
        errors: step.errors?.value ?? NEVER,
        delayMs: step.delay?.value ?? CLEAR_DELAY_MS,
        forMs: step.for?.value ?? null,
      };
    },
    write: ({ tool, worker, forMs, ...faulty }) => [
      ['air', flowList([flowText(tool), flowText(worker)])],
      ...writeFault(faulty),
      ...(forMs === null ? [] : ([['for', formatDuration(forMs)]] as const)),
    ],
  },
);

interface FaultFields {
  readonly air: Found<unknown>;
  readonly out?: Found<'yes'> | undefined;
  readonly loss?: Found<Ratio> | undefined;
  readonly duplicate?: Found<Ratio> | undefined;
  readonly errors?: Found<Ratio> | undefined;
  readonly delay?: Found<unknown> | undefined;
}

function reportEmpty(step: FaultFields, problems: Problems): void {
  const { out, loss, duplicate, errors, delay: delayed } = step;
  if (out !== undefined && loss !== undefined) {
    problems.at(
      loss.node,
      'unexpected',
      '"out" and "loss" exclude each other',
      '"out: yes" is the same as "loss: 1/1"',
    );
  }
  if ([out, loss, duplicate, errors, delayed].every((given) => given === undefined)) {
    const expected = 'out, loss, duplicate, errors or delay; loss: 0/1 makes the air clear again';
    problems.at(step.air.node, 'missing', 'this does not say what the air does', expected);
  }
}

function writeFault({
  loss,
  duplicate,
  errors,
  delayMs: [low, high],
}: AirFault): readonly (readonly [string, string])[] {
  const fields: (readonly [string, string])[] = [['loss', `${loss.num}/${loss.den}`]];
  for (const [key, { num, den }] of Object.entries({ duplicate, errors })) {
    if (num !== NEVER.num || den !== NEVER.den) fields.push([key, `${num}/${den}`]);
  }
  if (low !== CLEAR_DELAY_MS[0] || high !== CLEAR_DELAY_MS[1]) {
    fields.push(['delay', low === high ? formatDuration(low) : flowList([formatDuration(low), formatDuration(high)])]);
  }
  return fields;
}
