// What a statechart names, read from the machine itself: guards, actions and event types.
import type { AnyStateMachine } from 'xstate';

interface Names {
  readonly guards: string[];
  readonly actions: string[];
  readonly events: string[];
}

type Node = AnyStateMachine['root'];

/** Every name, sorted, once. Timers are no event types. */
export function namesIn(machine: AnyStateMachine): Names {
  const guards = new Set<string>();
  const actions = new Set<string>();
  const events = new Set<string>();
  const visit = (node: Node): void => {
    for (const action of [...node.entry, ...node.exit]) note(actions, action);
    for (const [type, transitions] of node.transitions) {
      if (!type.startsWith('xstate.')) events.add(type);
      for (const transition of transitions) {
        if (transition.guard !== undefined) note(guards, transition.guard);
        for (const action of transition.actions) note(actions, action);
      }
    }
    for (const child of Object.values(node.states)) visit(child);
  };
  visit(machine.root);
  return { guards: [...guards].sort(), actions: [...actions].sort(), events: [...events].sort() };
}

/** Names of what the machine was set up with, sorted: guards, actions and delays that a state may use. */
export function declaredIn(machine: AnyStateMachine): { guards: string[]; actions: string[]; delays: string[] } {
  const { guards, actions, delays } = machine.implementations;
  return {
    guards: Object.keys(guards).sort(),
    actions: Object.keys(actions).sort(),
    delays: Object.keys(delays).sort(),
  };
}

/** Timers of a machine by the names of their delays, sorted. */
export function timersIn(machine: AnyStateMachine): string[] {
  const names = new Set<string>();
  const visit = (node: Node): void => {
    for (const { delay } of node.after) names.add(String(delay));
    for (const child of Object.values(node.states)) visit(child);
  };
  visit(machine.root);
  return [...names].sort();
}

/** Actions that XState brings itself, for delayed transitions, carry functions and are left out. */
function note(names: Set<string>, named: unknown): void {
  if (typeof named === 'string') names.add(named);
  else if (typeof named === 'object' && named !== null && 'type' in named && typeof named.type === 'string') {
    names.add(named.type);
  }
}
