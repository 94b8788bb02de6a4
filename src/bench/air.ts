// Frames on their way: what a device sends is put into the trace, then into the air between the two, and what arrives is
// handed to the other.
import { hear } from '../../sim/radio/attacker.js';
import { arrivals, flipBits } from '../../sim/radio/radio.js';
import type { Message } from '../link/pairing-messages.js';
import { middleOf } from './attacks/attack.js';
import { intercept } from './attacks/middle.js';
import { hexText } from './hex.js';
import { advance, bringUp, deviceOf, deviceState, isCounter, nameOf, type Stage, workerOf } from './stage.js';
import type { Tracer } from './tracer.js';
import type { Occurrence } from './world.js';

export function send(stage: Stage, from: number, to: number, bytes: Uint8Array, meaning: Message): void {
  const { world, tracer, clock } = stage;
  if (meaning.frame === 'answer') world.sessions[from - 1]!.set(meaning.link, meaning.session);
  const sent = tracer === null ? 0 : traceSent(stage, tracer, from, to, bytes, meaning);
  const [tool, worker] = isCounter(stage, from) ? [from - 1, workerOf(stage, to)] : [to - 1, workerOf(stage, from)];
  const air = world.air[tool]?.[worker];
  if (air === undefined) throw new Error(`a frame from device ${from} is meant for ${to}, which is no peer of it`);
  if (world.tools[tool]!.place !== world.workers[worker]!.place) {
    traceLost(stage, from, to, meaning, 'range', sent);
    return;
  }
  if (passAttackers(stage, tool, worker, bytes, to, meaning) === 'kept back') {
    traceLost(stage, from, to, meaning, 'intercepted', sent);
    return;
  }
  const random = stage.random.air[tool]![worker]!;
  const arriving = arrivals(air, random);
  if (arriving.length === 0) traceLost(stage, from, to, meaning, 'loss', sent);
  for (const { delayMs, flips } of arriving) {
    const arrived = flips ? flipBits(bytes, random) : bytes;
    const [name, frame] = [nameOf(stage, from), flips ? 'damaged' : meaning.frame];
    clock.arm(delayMs, { of: 'arrival', to, from: name, frame, bytes: arrived, cause: sent });
  }
}

/** A frame passes whoever is near these two: it is heard, and somebody in the middle of a pairing may keep it back. */
function passAttackers(
  stage: Stage,
  tool: number,
  worker: number,
  bytes: Uint8Array,
  to: number,
  meaning: Message,
): 'passed' | 'kept back' {
  const attacker = stage.world.attackers[tool]![worker]!;
  if (attacker === null) return 'passed';
  hear(attacker, { bytes, to });
  const middle = middleOf(stage, tool, worker);
  return middle !== undefined && intercept(stage, middle, bytes, meaning) ? 'kept back' : 'passed';
}

export function arrive(stage: Stage, due: Occurrence & { of: 'arrival' }): void {
  const { world, tracer } = stage;
  const { to, from, frame, bytes, cause } = due;
  bringUp(stage, to);
  if (!deviceState(stage, to).on) return;
  world.cause = cause;
  world.arriving = due;
  if (tracer !== null) world.cause = tracer.add(nameOf(stage, to), 'air.heard', { frame, from });
  deviceOf(stage, to).receive(bytes);
  advance(stage, to);
}

function traceLost(stage: Stage, from: number, to: number, message: Message, reason: string, sent: number): void {
  const { world, tracer } = stage;
  if (tracer === null) return;
  const { cause } = world;
  world.cause = sent;
  tracer.add(nameOf(stage, from), 'air.lost', { frame: message.frame, reason, to: nameOf(stage, to) });
  world.cause = cause;
}

function traceSent(
  stage: Stage,
  tracer: Tracer,
  from: number,
  to: number,
  frame: Uint8Array,
  message: Message,
): number {
  const by = nameOf(stage, from);
  const bytes = hexText(frame);
  const toName = nameOf(stage, to);
  switch (message.frame) {
    case 'tally':
      return tracer.add(by, 'air.tally', {
        bytes,
        cell: message.cell,
        dose: message.dose,
        flags: message.flags,
        link: message.link,
        magnitudeTenths: message.magnitudeTenths,
        sequence: message.sequence,
        session: sessionOf(stage, from, message.link),
        to: toName,
        triggerWindows: message.triggerWindows,
        unratedWindows: message.unratedWindows,
      });
    case 'report':
      return tracer.add(by, 'air.report', {
        bytes,
        link: message.link,
        powerLosses: message.powerLosses,
        sequence: message.sequence,
        session: sessionOf(stage, from, message.link),
        shortBursts: message.shortBursts,
        to: toName,
        unclaimedDose: message.unclaimedDose,
        unclaimedWindows: message.unclaimedWindows,
      });
    case 'ack':
      return tracer.add(by, 'air.ack', {
        bytes,
        closed: message.closed,
        highest: message.highest,
        highestReport: message.highestReport,
        leftTenths: message.leftTenths,
        level: message.level,
        link: message.link,
        sequence: message.sequence,
        to: toName,
      });
  }
  return tracer.add(by, 'air.pairing', { bytes, frame: message.frame, to: toName });
}

/** The session that a counter's link belongs to, as its answer at pairing said. */
function sessionOf(stage: Stage, counter: number, link: number): number {
  return stage.world.sessions[counter - 1]!.get(link) ?? 0;
}
