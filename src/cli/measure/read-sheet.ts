// A measuring sheet: a small YAML file beside the recordings, read as strictly as a scenario. What it leaves out is no mistake of
// the file, but a gap that is found (src/vibration/setting/sheet.ts).
import { z } from 'zod';
import { amount } from '../../scenario/fields/amount.js';
import { type Field, nodeField, refusal, scalarField } from '../../scenario/fields/field.js';
import { parseDecimal } from '../../scenario/fields/number.js';
import { readSome } from '../../scenario/fields/read-fields.js';
import { sentence } from '../../scenario/fields/text.js';
import type { Problem } from '../../scenario/problem.js';
import { Problems } from '../../scenario/problems.js';
import { Scope } from '../../scenario/scope.js';
import { Source } from '../../scenario/source.js';
import { type Node, nodeWord } from '../../scenario/yaml/node.js';
import { parseTree } from '../../scenario/yaml/parse.js';
import type { CalibrationCheck, Sheet } from '../../vibration/setting/sheet.js';

const MOST_MS2 = 1000;

const SHEET = z.strictObject({
  operator: sentence('who held the tool', 'one line').optional(),
  operation: sentence('what was done with it', 'one line').optional(),
  material: sentence('on what it worked', 'one line').optional(),
  accessory: sentence('the bit, disc or blade', 'one line').optional(),
  mounting: sentence('how the transducer was mounted', 'one line').optional(),
  place: sentence('where on the handle', 'one line').optional(),
  calibration: nodeField({
    type: 'object',
    description: 'the checks on a calibrator, {reference: 10.0, before: 10.1, after: 9.9}',
  }).optional(),
  'chain uncertainty': amount('%', 1, 100, 'the expanded uncertainty (k = 2) of the measuring chain').optional(),
});

const CALIBRATION = z.strictObject({
  reference: acceleration("the calibrator's"),
  before: acceleration('what the chain read before the measurement').optional(),
  after: acceleration('what it read after').optional(),
});

/** The sheet, or all that is wrong with it. */
export function readSheet(text: string, file: string): Sheet | readonly Problem[] {
  const source = new Source(file, text.startsWith('\ufeff') ? text.slice(1) : text);
  const problems = new Problems(source);
  const scope = new Scope(problems, {});
  const root = parseTree(source.text, problems);
  const fields = root === null ? null : mapFields(SHEET, root, 'a measuring sheet', scope);
  const calibration = fields?.calibration && mapFields(CALIBRATION, fields.calibration.value, 'a calibration', scope);
  if (problems.size > 0 || fields === null) return problems.list();
  const uncertainty = fields['chain uncertainty'];
  return {
    operator: fields.operator?.value ?? null,
    operation: fields.operation?.value ?? null,
    material: fields.material?.value ?? null,
    accessory: fields.accessory?.value ?? null,
    mounting: fields.mounting?.value ?? null,
    place: fields.place?.value ?? null,
    calibration: calibration ? checkOf(calibration) : null,
    chainUncertainty: uncertainty === undefined ? null : uncertainty.value / 100,
  };
}

/** What could be read, so that all is reported at once. */
function mapFields<S extends z.ZodObject>(
  definition: S,
  node: Node,
  what: string,
  scope: Scope,
): Partial<z.output<S>> | null {
  if (node.kind === 'map') return readSome(definition, node, { what, span: node.span }, scope).values;
  scope.problems.at(node, 'value', `here stands ${nodeWord(node)}`, `expected ${what} as a map: {key: value}`);
  return null;
}

function checkOf({ reference, before, after }: Partial<z.output<typeof CALIBRATION>>): CalibrationCheck | null {
  if (reference === undefined) return null;
  return { reference: reference.value, before: before?.value ?? null, after: after?.value ?? null };
}

/** An acceleration in m/s², above 0. */
function acceleration(what: string): Field<number> {
  const description = `${what} in m/s², a number above 0 and up to ${MOST_MS2}`;
  return scalarField({ type: 'number', description }, 'number', (given) => {
    const decimal = parseDecimal(given);
    const value = decimal === null ? Number.NaN : decimal.digits / 10 ** decimal.places;
    return value > 0 && value <= MOST_MS2 ? value : refusal('this is no acceleration', description);
  });
}
