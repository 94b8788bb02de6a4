// The state of a chart as text: each top-level region with its nested states joined by dots.
import type { StateValue } from 'xstate';

export function regionsOf(value: StateValue): ReadonlyMap<string, string> {
  if (typeof value === 'string') throw new Error('a device has parallel regions at the top');
  return new Map(Object.entries(value).map(([region, state]) => [region, pathOf(state)]));
}

function pathOf(state: StateValue | undefined): string {
  if (state === undefined || typeof state === 'string') return state ?? '';
  const [[outer, nested] = ['', '']] = Object.entries(state);
  return `${outer}.${pathOf(nested)}`;
}
