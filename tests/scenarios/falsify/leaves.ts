// The leaves of an expectation: every number, time, length of time, name and word that stands in it, with what else could stand
// there instead.
import { FORMS, namesSubject } from '../../../src/scenario/expect/forms.js';
import { ONLY_SENDER } from '../../../src/scenario/expect/happenings.js';
import { WORDS } from '../shipped.js';
import type { ScenarioStage } from './stage.js';
import { entryOf, isTreeMap, type Path, type Tree } from './tree.js';

export type Sort = 'number' | 'duration' | 'moment' | 'name' | 'word' | 'comparison' | 'form';

export interface Leaf {
  readonly sort: Sort;
  readonly path: Path;
  /** As written. */
  readonly text: string;
  /** Names and words: all that could stand there. */
  readonly others: readonly string[];
}

const NUMBERS = ['is', 'exactly', 'between', 'at least', 'at most', 'above', 'below', 'rises by', 'session'];
const DURATIONS = ['trigger time', 'unrated time'];
const MOMENTS = ['at', 'from', 'until', 'after'];
const OF_TOOLS = [
  ...['trigger time', 'unrated time', 'unclaimed dose', 'short bursts', 'second number', 'power losses'],
  ...['press', 'turn'],
];
const OF_WORKERS = ['points', 'start', 'stop', 'touch', 'tap', 'readout', 'on'];
const OF_EITHER = [
  ...['dose', 'display', 'state', 'torn records', 'retired pages', 'refused frames'],
  ...['leave', 'return', 'by', 'to'],
];
const SUBJECTS_OF_WORDS = ['alert', 'message', 'event'];
const COMPARED = ['at least', 'at most', 'above', 'below', 'is', 'exactly'];

export function leavesOf(expectation: Tree, stage: ScenarioStage): readonly Leaf[] {
  if (!isTreeMap(expectation)) throw new Error('an expectation is a map');
  const form = FORMS.find((word) => entryOf(expectation, word) !== undefined);
  if (form === undefined) throw new Error('an expectation has a form');
  const subject = namesSubject(form) ? String(entryOf(expectation, form)) : null;
  const found = expectation.entries.flatMap(([key, value]) => leavesAt([key], value, expectation, subject, stage));
  const formLeaf: Leaf[] =
    namesSubject(form) && !SUBJECTS_OF_WORDS.includes(subject ?? '')
      ? [{ sort: 'form', path: [form], text: form, others: ['always', 'never'] }]
      : [];
  return [...formLeaf, ...found];
}

function leavesAt(path: Path, value: Tree, map: Tree, subject: string | null, stage: ScenarioStage): readonly Leaf[] {
  if (isTreeMap(value)) {
    return value.entries.flatMap(([key, inner]) => leavesAt([...path, key], inner, value, null, stage));
  }
  if (typeof value !== 'string') {
    return (value as readonly Tree[]).flatMap((item, index) => leavesAt([...path, index], item, map, subject, stage));
  }
  const key = String(path.findLast((step) => typeof step === 'string'));
  const leaf = (sort: Sort, others: readonly string[] = []): Leaf => ({ sort, path, text: value, others });
  const isState = subject === 'state' || entryOf(map, 'state') !== undefined;
  if (key === 'always' || key === 'never') return [];
  if (key === 'within') return [leaf('duration')];
  if (MOMENTS.includes(key)) return [leaf('moment')];
  if (key === 'is' && isState) return [leaf('word', statesOf(map, subject, stage))];
  if (key === 'at least' && saysBlank(map, subject)) return [];
  if (NUMBERS.includes(key)) {
    const ofTime = DURATIONS.some((word) => subject === word || entryOf(map, word) !== undefined) && key !== 'session';
    const compared: Leaf[] = COMPARED.includes(key)
      ? [{ sort: 'comparison', path: path.slice(0, path.indexOf(key) + 1), text: key, others: COMPARED }]
      : [];
    return [leaf(ofTime ? 'duration' : 'number'), ...compared];
  }
  const others = othersAt(key, map, subject, stage);
  return [leaf(others.sort, others.words)];
}

function othersAt(
  key: string,
  map: Tree,
  subject: string | null,
  stage: ScenarioStage,
): { sort: Sort; words: readonly string[] } {
  const { tools, workers, whatIfs } = stage;
  const device = String(entryOf(map, subject === null ? 'display' : 'of') ?? entryOf(map, 'state'));
  const words = tools.includes(device) ? WORDS.counter : WORDS.wearable;
  const about = key === 'of' ? (subject ?? '') : key;
  if (about === 'what-if') return { sort: 'name', words: whatIfs };
  if (about === 'screen') return { sort: 'word', words: words.screens };
  if (about === 'icon') return { sort: 'word', words: words.icons };
  if (about === 'region') return { sort: 'word', words: Object.keys(words.regions) };
  if (about === 'alert') return { sort: 'word', words: [...WORDS.levels, 'any'] };
  if (about === 'message') return { sort: 'word', words: framesBetween(map, stage) };
  if (about === 'reason') return { sort: 'word', words: WORDS.refusals };
  if (about === 'event') return { sort: 'word', words: WORDS.kinds };
  if (OF_TOOLS.includes(about)) return { sort: 'name', words: tools };
  if (OF_WORKERS.includes(about)) return { sort: 'name', words: workers };
  if (OF_EITHER.includes(about)) return { sort: 'name', words: sameSort(key, map, subject, stage) };
  throw new Error(`nothing is known of "${key}" in an expectation`);
}

/** Where the rest of the expectation speaks of a counter's or of a wearable's own things, only others of that sort fit. */
function sameSort(
  key: string,
  map: Tree,
  subject: string | null,
  { tools, workers }: ScenarioStage,
): readonly string[] {
  const name = String(entryOf(map, key));
  const frame = String(subject === 'message' ? entryOf(map, 'of') : entryOf(map, 'message'));
  const oneSided = ['by', 'to'].includes(key) && Object.hasOwn(ONLY_SENDER, frame);
  if (oneSided) return tools.includes(name) ? tools : workers;
  const bound = ['screen', 'icon', 'region', 'session'].some((word) => entryOf(map, word) !== undefined);
  if (!bound || (subject === null && ['by', 'to', 'leave', 'return'].includes(key))) return [...tools, ...workers];
  return tools.includes(name) ? tools : workers;
}

/** Frames that whoever the map names may send and get. */
function framesBetween(map: Tree, { tools, workers }: ScenarioStage): readonly string[] {
  const fits = (key: string, side: 'counter' | 'wearable') => {
    const name = entryOf(map, key);
    return name === undefined || !(side === 'counter' ? workers : tools).includes(String(name));
  };
  return WORDS.frames.filter((frame) => {
    const sender = ONLY_SENDER[frame];
    if (sender === undefined) return true;
    return fits('by', sender) && fits('to', sender === 'counter' ? 'wearable' : 'counter');
  });
}

function statesOf(map: Tree, subject: string | null, { tools }: ScenarioStage): readonly string[] {
  const device = String(entryOf(map, subject === null ? 'state' : 'of'));
  const { regions } = tools.includes(device) ? WORDS.counter : WORDS.wearable;
  return regions[String(entryOf(map, 'region'))] ?? [];
}

/** "never: display, of: Edda, at least: 0" says that no number is shown; no other number could stand there. */
function saysBlank(map: Tree, subject: string | null): boolean {
  return (
    ['display', 'second number'].includes(subject ?? '') &&
    entryOf(map, 'never') !== undefined &&
    entryOf(map, 'at least') === '0'
  );
}
