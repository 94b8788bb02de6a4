// Attacks on the air between a counter and a wearable (TAL-4): somebody hears what the two send, and sends frames of their own,
// or sits in the middle of their pairings.
import { type AttackerState, attack } from '../../../sim/radio/attacker.js';
import { hexText } from '../hex.js';
import { counterId, nameOf, type Stage, wearableId } from '../stage.js';
import type { Occurrence } from '../world.js';
import type { AttackState } from './state.js';

/** A frame of an attacker takes this long; it comes from nearby. */
const INJECTED_MS = 1;

export function beginAttack(stage: Stage, order: Omit<AttackState, 'over' | 'middle'>, forMs: number): void {
  const { world, clock } = stage;
  const number = world.attacks.push({ ...order, over: false, middle: null }) - 1;
  if (order.how !== 'middle') clock.arm(order.everyMs, { of: 'attack', attack: number });
  clock.arm(forMs, { of: 'attack over', attack: number });
}

/** The next frame of an attack; its last one is sent before the attack is over. */
export function goOnAttacking(stage: Stage, number: number): void {
  const { world, clock, random } = stage;
  const order = world.attacks[number]!;
  if (order.over || order.how === 'middle') return;
  const { how, tool, worker } = order;
  const frame = attack(attackerOf(stage, tool, worker), how, random.attacks[tool]![worker]!);
  if (frame !== null) inject(stage, frame.bytes, frame.to, how);
  clock.arm(order.everyMs, { of: 'attack', attack: number });
}

export function endAttack(stage: Stage, number: number): void {
  const { world, tracer } = stage;
  const order = world.attacks[number]!;
  order.over = true;
  order.middle = null;
  const what = `attack ${nameOf(stage, wearableId(stage, order.worker))}`;
  tracer?.add(nameOf(stage, counterId(order.tool)), 'fault.lifted', { what });
}

/** A frame that is none of the devices' own, sent to one of them. */
export function inject(stage: Stage, bytes: Uint8Array, to: number, how: string): void {
  stage.clock.arm(INJECTED_MS, injected(stage, bytes, to, how));
}

/** Such a frame as it arrives. */
export function injected(stage: Stage, bytes: Uint8Array, to: number, how: string): Occurrence & { of: 'arrival' } {
  const n = stage.tracer?.add('bench', 'air.injected', { bytes: hexText(bytes), how, to: nameOf(stage, to) }) ?? 0;
  return { of: 'arrival', to, from: 'bench', frame: 'injected', bytes, cause: n };
}

/** What is in the middle of the pairings of these two now, if anything. */
export function middleOf({ world }: Stage, tool: number, worker: number): AttackState | undefined {
  return world.attacks.find(
    (order) => order.how === 'middle' && !order.over && order.tool === tool && order.worker === worker,
  );
}

function attackerOf({ world }: Stage, tool: number, worker: number): AttackerState {
  const attacker = world.attackers[tool]?.[worker];
  if (!attacker) throw new Error('nobody has listened to these two');
  return attacker;
}
