// Frames on their way: what a device sends is put into the trace, then into the air between the two, and what arrives is
// handed to the other.
import { arrivalsMs } from '../../sim/radio/radio.js';
import type { Message } from '../link/messages.js';
import { advance, bringUp, isCounter, nameOf, type Stage, workerOf } from './stage.js';
import type { Tracer } from './tracer.js';
import type { Occurrence } from './world.js';

export function send(stage: Stage, from: number, to: number, message: Message): void {
  const { world, tracer, clock } = stage;
  if (message.frame === 'answer') world.sessions[from - 1]!.set(message.link, message.session);
  const sent = tracer === null ? 0 : traceSent(stage, tracer, from, to, message);
  const [tool, worker] = isCounter(stage, from) ? [from - 1, workerOf(stage, to)] : [to - 1, workerOf(stage, from)];
  const air = world.air[tool]?.[worker];
  if (air === undefined) throw new Error(`a frame from device ${from} is meant for ${to}, which is no peer of it`);
  if (world.tools[tool]!.place !== world.workers[worker]!.place) {
    traceLost(stage, from, to, message, 'range', sent);
    return;
  }
  const arrivals = arrivalsMs(air, stage.random.air[tool]![worker]!);
  if (arrivals.length === 0) traceLost(stage, from, to, message, 'loss', sent);
  for (const delayMs of arrivals) clock.arm(delayMs, { of: 'arrival', to, from, message, cause: sent });
}

export function arrive(stage: Stage, { to, from, message, cause }: Occurrence & { of: 'arrival' }): void {
  const { world, tracer } = stage;
  bringUp(stage, to);
  world.cause = cause;
  if (tracer !== null) {
    world.cause = tracer.add(nameOf(stage, to), 'air.heard', { frame: message.frame, from: nameOf(stage, from) });
  }
  const counter = stage.counters[to - 1];
  if (counter !== undefined) counter.receive(message, from);
  else stage.wearables[workerOf(stage, to)]!.receive(message, from);
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

function traceSent(stage: Stage, tracer: Tracer, from: number, to: number, message: Message): number {
  const by = nameOf(stage, from);
  const toName = nameOf(stage, to);
  switch (message.frame) {
    case 'tally':
      return tracer.add(by, 'air.tally', {
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
  return tracer.add(by, 'air.pairing', { frame: message.frame, to: toName });
}

/** The session that a counter's link belongs to, as its answer at pairing said. */
function sessionOf(stage: Stage, counter: number, link: number): number {
  return stage.world.sessions[counter - 1]!.get(link) ?? 0;
}
