// Whether a chart is one that the transition table can run just as XState would. What the table would run in another way, or
// not at all, is refused when the table is made, not when the day comes that needs it.
import type { AnyStateMachine } from 'xstate';

type Node = AnyStateMachine['root'];

/** Throws where a chart has more to it than states, named guards, named actions and deadlines. */
export function requirePlainChart(machine: AnyStateMachine): void {
  requirePlain(machine.root);
}

function requirePlain(node: Node): void {
  if (node.always !== undefined && node.always.length > 0) throw new Error(`${node.id}: eventless transitions`);
  if (node.type === 'history' || node.type === 'final') throw new Error(`${node.id}: a ${node.type} state`);
  if (node.invoke.length > 0) throw new Error(`${node.id}: an invoked actor`);
  requireNamed(node, 'entry', node.entry);
  requireNamed(node, 'exit', node.exit);
  for (const [type, transitions] of node.transitions) {
    if (type.endsWith('*')) throw new Error(`${node.id}: a transition for any event`);
    for (const { guard, actions } of transitions) {
      if (guard !== undefined && typeof guard !== 'string')
        throw new Error(`${node.id}: a guard of ${type} has no name`);
      requireNamed(node, type, actions);
    }
  }
  for (const child of Object.values(node.states)) requirePlain(child);
}

/** XState's own arming and cancelling of deadlines; whether a raise has a delay shows where it is carried out. */
const BUILT_IN = ['xstate.raise', 'xstate.cancel'];

function requireNamed(node: Node, where: string, actions: readonly unknown[]): void {
  for (const action of actions) {
    const builtIn = typeof action === 'function' && 'type' in action && BUILT_IN.includes(String(action.type));
    if (typeof action !== 'string' && !builtIn) throw new Error(`${node.id}: an action of ${where} has no name`);
  }
}
