// The words of a scenario that other folders own, put together: requirements from the catalogue, states from the charts,
// screens and icons from the faces, and from the bench the display of a device without power.
import { fileURLToPath } from 'node:url';
import type { AnyStateMachine } from 'xstate';
import { DARK } from '../../bench/world.js';
import { counterMachine } from '../../counter/chart.js';
import { COUNTER_ICONS, COUNTER_SCREENS } from '../../counter/face.js';
import { ALERT_LEVELS, FRAMES } from '../../link/messages.js';
import { REFUSALS } from '../../port/refusals.js';
import { readText } from '../../scenario/file.js';
import { renderProblem } from '../../scenario/render.js';
import { readRequirements } from '../../scenario/requirements.js';
import type { DeviceWords, Words } from '../../scenario/words.js';
import { KINDS } from '../../trace/kinds.js';
import { wearableMachine } from '../../wearable/chart.js';
import { WEARABLE_ICONS, WEARABLE_SCREENS } from '../../wearable/face.js';
import { packageRoot } from '../package-file.js';

/** Throws where the catalogue that is shipped cannot be read. */
export function scenarioWords(): Words {
  return {
    requirements: requirementIds(),
    kinds: Object.keys(KINDS),
    levels: ALERT_LEVELS.filter((level) => level !== 'none'),
    frames: FRAMES,
    refusals: REFUSALS,
    counter: deviceWords(counterMachine, [...COUNTER_SCREENS, DARK.screen], COUNTER_ICONS),
    wearable: deviceWords(wearableMachine, [...WEARABLE_SCREENS, DARK.screen], WEARABLE_ICONS),
  };
}

function requirementIds(): readonly string[] {
  const file = fileURLToPath(new URL('scenarios/catalogue/requirements.yaml', packageRoot()));
  const text = readText(file);
  if (typeof text !== 'string') throw new Error(renderProblem(text));
  const catalogue = readRequirements(text, file);
  if (!catalogue.ok) throw new Error(catalogue.problems.map(renderProblem).join('\n'));
  return catalogue.groups.flatMap(({ requirements }) => requirements.map(({ id }) => id));
}

function deviceWords(machine: AnyStateMachine, screens: readonly string[], icons: readonly string[]): DeviceWords {
  const regions = Object.entries(machine.root.states).map(([region, node]) => [region, leavesOf(node)] as const);
  return { screens, icons, regions: Object.fromEntries(regions) };
}

/** Names of the innermost states, nested ones joined by dots. */
function leavesOf(node: AnyStateMachine['root']): readonly string[] {
  return Object.entries(node.states).flatMap(([name, child]) => {
    const nested = leavesOf(child);
    return nested.length === 0 ? [name] : nested.map((inner) => `${name}.${inner}`);
  });
}
