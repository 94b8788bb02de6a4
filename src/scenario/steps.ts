// The steps of a day: each has one verb, and becomes plain events with absolute times that remember the step's label.
import { mapsOf } from './collections.js';
import type { DayEvent } from './day.js';
import { type ClockTime, sinceStart } from './fields/clock.js';
import type { Found } from './fields/field.js';
import { readSome } from './fields/read-fields.js';
import { MAX_ATTACK_FRAMES, MAX_EVENTS, MAX_ITEMS } from './limits.js';
import { pickWord } from './pick-word.js';
import { type Frame, reportOutside, type Scope } from './scope.js';
import { VERBS } from './verbs/verbs.js';
import { entryOf, type MapNode, type Node, withArticle } from './yaml/node.js';

/** An event of the day with the label of the step that it came from, and where that begins in the text. */
export interface LabelledEvent {
  readonly event: DayEvent;
  readonly label: string | null;
  readonly offset: number;
}

const WORDS = [...VERBS.keys()];
const COMPANIONS = [
  ...new Set(
    [...VERBS.values()].flatMap(({ word, definition }) => Object.keys(definition.shape).filter((key) => key !== word)),
  ),
];

/** In the order of their times; of two at the same time the one written first stands first. */
export function readSteps(node: Node, frame: Frame, scope: Scope): readonly LabelledEvent[] {
  const events: LabelledEvent[] = [];
  let frames = 0;
  for (const map of mapsOf(node, 'a step', MAX_ITEMS, scope.problems)) {
    const step = readStep(map, frame, scope);
    if (events.length + step.length > MAX_EVENTS) {
      scope.problems.at(map, 'limit', `the day has more than ${MAX_EVENTS} events`, 'split the scenario');
      break;
    }
    frames += step.reduce((sum, { event }) => sum + framesOf(event), 0);
    if (frames > MAX_ATTACK_FRAMES) {
      const expected = 'a longer "frame every", or a shorter "for"';
      scope.problems.at(map, 'limit', `attackers send more than ${MAX_ATTACK_FRAMES} frames`, expected);
      break;
    }
    events.push(...step);
  }
  return inOrder(events);
}

/** How many frames an attacker sends at most. */
function framesOf(event: DayEvent): number {
  return event.do === 'attack' && event.everyMs > 0 ? Math.ceil(event.forMs / event.everyMs) : 0;
}

/** Sorted by time, without moving those of the same time past each other. */
export function inOrder(events: readonly LabelledEvent[]): readonly LabelledEvent[] {
  return [...events].sort((a, b) => a.event.atMs - b.event.atMs);
}

function readStep(map: MapNode, frame: Frame, scope: Scope): readonly LabelledEvent[] {
  const { problems } = scope;
  const vocabulary = { thing: 'step', word: 'verb', words: WORDS, companions: COMPANIONS };
  const picked = pickWord(map, vocabulary, problems);
  const verb = picked === null ? undefined : VERBS.get(picked.key);
  if (picked === null || verb === undefined) return [];
  const about = { what: withArticle(`"${verb.word}" step`), span: picked.keySpan };
  const { values, complete } = readSome(verb.definition, map, about, scope);
  const { at, as: label } = values as { at?: Found<ClockTime>; as?: Found<string> };
  const atMs = at === undefined ? 0 : sinceStart(at.value, frame.fromMs);
  if (at !== undefined && (atMs < 0 || atMs >= frame.untilMs)) reportOutside(problems, at.node, frame);
  if (!complete) return [];
  const events = verb.events(values as never, atMs, { problems, frame });
  return events.map((event) => ({ event, label: label?.value ?? null, offset: map.span.start }));
}

/** Every label that a step has, also a step that could not be read. */
export function labelsOf(node: Node): ReadonlySet<string> {
  const labels = new Set<string>();
  for (const step of node.kind === 'list' ? node.items : []) {
    const label = step.kind === 'map' ? entryOf(step, 'as')?.value : undefined;
    if (label?.kind === 'scalar') labels.add(label.text);
  }
  return labels;
}
