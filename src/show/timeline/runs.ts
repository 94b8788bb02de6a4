// The running of tools, with starts that follow each other closely told as one.
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import { timeText } from '../times.js';
import type { TimelineLine } from './line.js';

/** Starts of one tool by one worker belong together while they are no further apart than this. */
const TOGETHER_MS = 10 * 60_000;

interface Spell {
  readonly worker: string;
  readonly tool: string;
  readonly held: boolean;
  readonly fromMs: number;
  untilMs: number;
  starts: number;
  ranMs: number;
  runs: boolean;
}

/** One line a spell of work, dated to its first start. untilMs ends whatever still runs. */
export function runLines(events: readonly TraceEvent[], fromMs: number, untilMs: number): readonly TimelineLine[] {
  const spells: Spell[] = [];
  const latest = new Map<string, Spell>();
  for (const event of events) {
    if (event.kind === 'hand.start') start(spells, latest, event);
    if (event.kind === 'hand.stop') stop(latest.get(event.tool), event.at);
  }
  for (const spell of latest.values()) stop(spell, untilMs);
  return spells.map((spell) => ({ atMs: spell.fromMs, who: spell.worker, text: spellText(spell, fromMs) }));
}

function start(spells: Spell[], latest: Map<string, Spell>, event: EventOf<'hand.start'>): void {
  const { at, by, held, tool } = event;
  let spell = latest.get(tool);
  if (spell?.worker !== by || spell.held !== held || at - spell.untilMs > TOGETHER_MS) {
    spell = { worker: by, tool, held, fromMs: at, untilMs: at, starts: 0, ranMs: 0, runs: true };
    spells.push(spell);
    latest.set(tool, spell);
  }
  Object.assign(spell, { starts: spell.starts + 1, untilMs: at, runs: true });
}

function stop(spell: Spell | undefined, atMs: number): void {
  if (spell === undefined || !spell.runs) return;
  Object.assign(spell, { ranMs: spell.ranMs + atMs - spell.untilMs, untilMs: atMs, runs: false });
}

function spellText({ tool, held, starts, ranMs, untilMs }: Spell, fromMs: number): string {
  const until = timeText(fromMs, untilMs);
  const verb = held ? 'works with' : 'leaves running on the ground:';
  const count = starts === 1 ? 'one start' : `${starts} starts`;
  return `${verb} ${tool} until ${until}: ${count}, ${ranText(ranMs)}`;
}

/** "4 min 05 s" */
function ranText(ms: number): string {
  const seconds = Math.round(ms / 1000);
  const rest = `${seconds % 60}`.padStart(2, '0');
  return seconds < 60 ? `${ms / 1000} s` : `${Math.floor(seconds / 60)} min ${rest} s`;
}
