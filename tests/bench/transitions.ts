// Counts which transitions of a statechart an actor takes, as XState itself selects them.
import type { AnyStateMachine, EventObject } from 'xstate';
import type { EngineMaker } from '../../src/port/engine.js';

type Node = AnyStateMachine['root'];

/** Every transition of a chart as "state event index". */
export function transitionsOf(machine: AnyStateMachine): readonly string[] {
  const visit = (node: Node): string[] => [
    ...[...node.transitions].flatMap(([type, taken]) => taken.map((_, index) => `${node.id} ${type} ${index}`)),
    ...Object.values(node.states).flatMap(visit),
  ];
  return visit(machine.root);
}

/** The engine, with the transitions that its actors take put into `taken`, by machine id. */
export function noting(engine: EngineMaker, taken: Map<string, Set<string>>): EngineMaker {
  return (chart) => engine({ ...chart, machine: notingMachine(chart.machine, taken) });
}

function notingMachine(machine: AnyStateMachine, taken: Map<string, Set<string>>): AnyStateMachine {
  const names = taken.get(machine.id) ?? new Set();
  taken.set(machine.id, names);
  const provide = machine.provide.bind(machine);
  const noted: AnyStateMachine = Object.create(machine);
  noted.provide = (implementations) => {
    const made: AnyStateMachine = provide(implementations);
    const select = made.getTransitionData.bind(made);
    made.getTransitionData = (snapshot, event: EventObject) => {
      const selected = select(snapshot, event);
      for (const transition of selected) {
        const { source, eventType } = transition;
        names.add(`${source.id} ${eventType} ${source.transitions.get(eventType)?.indexOf(transition)}`);
      }
      return selected;
    };
    return made;
  };
  return noted;
}
