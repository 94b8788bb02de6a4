// The tools and the workers of a day.
import { z } from 'zod';
import { entriesOf } from './collections.js';
import { HAND_CHARACTERS, SAMPLED_VIBRATIONS, type ToolSpec, type WorkerSpec } from './day.js';
import { choice } from './fields/choice.js';
import { integer, magnitude } from './fields/number.js';
import { readSome } from './fields/read-fields.js';
import { nameRefusal } from './fields/text.js';
import { MAX_TOOLS, MAX_WORKERS } from './limits.js';
import type { Problems } from './problems.js';
import { Scope } from './scope.js';
import { type Entry, type Node, nodeWord } from './yaml/node.js';

const MAX_LEVEL_POINTS = 1000;
/** WEA-2 */
const DEFAULT_NOTICE_POINTS = 80;

const TOOL = z.strictObject({
  hand: choice(HAND_CHARACTERS),
  samples: choice(SAMPLED_VIBRATIONS).optional(),
  magnitude,
  keyed: magnitude.optional(),
});

const points = integer(1, MAX_LEVEL_POINTS, 'points');
const WORKER = z.strictObject({ notice: points.optional(), site: points.optional() });

/** Tools of which something could not be read come with what could, so that their names are known. */
export function readTools(node: Node, problems: Problems): readonly ToolSpec[] {
  const entries = entriesOf(node, 'a tool', MAX_TOOLS, problems);
  reportNone(entries, node, 'tool', problems);
  return entries.map((entry) => {
    const { hand, samples, magnitude: made, keyed } = readOne(TOOL, entry, 'a tool', problems);
    return {
      name: entry.key,
      hand: hand?.value ?? 'rotary',
      ...(samples === undefined ? {} : { samples: samples.value }),
      magnitudeTenths: made?.value ?? 5,
      keyedTenths: keyed?.value ?? null,
    };
  });
}

export function readWorkers(node: Node, tools: readonly ToolSpec[], problems: Problems): readonly WorkerSpec[] {
  const entries = entriesOf(node, 'a worker', MAX_WORKERS, problems);
  reportNone(entries, node, 'worker', problems);
  return entries.map((entry) => {
    if (tools.some(({ name }) => name === entry.key)) {
      problems.on(entry.keySpan, 'unexpected', 'a tool has this name already', 'a tool and a worker differ in name');
    }
    const { notice, site } = readOne(WORKER, entry, 'a worker', problems);
    return { name: entry.key, noticePoints: notice?.value ?? DEFAULT_NOTICE_POINTS, sitePoints: site?.value ?? null };
  });
}

function readOne<S extends z.ZodObject>(
  definition: S,
  entry: Entry,
  what: string,
  problems: Problems,
): Partial<z.output<S>> {
  const why = nameRefusal(entry.key);
  if (why !== null) problems.on(entry.keySpan, 'value', why.refused, `expected ${why.expected}`);
  const { value, keySpan } = entry;
  if (value.kind === 'map') return readSome(definition, value, { what, span: keySpan }, new Scope(problems, {})).values;
  const fields = Object.keys(definition.shape).join(', ');
  problems.at(value, 'value', `here stands ${nodeWord(value)}`, `${what} is a map of ${fields}; {} where it has none`);
  return {};
}

function reportNone(entries: readonly Entry[], node: Node, what: string, problems: Problems): void {
  if (entries.length > 0 || node.kind !== 'map') return;
  problems.at(node, 'missing', `there is no ${what}`, `a day has at least one ${what}`);
}
