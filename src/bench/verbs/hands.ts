// What hands do: they work, key in, pair, press, turn, touch, tap, and put a device into its reader.
import { RING_PRESSES } from '../../counter/panel.js';
import { inputOf, shortestFor } from '../../port/gesture.js';
import { SURFACE_TOUCHES } from '../../wearable/surface.js';
import { counterId, inputToCounter, inputToWearable, isCounter, type Stage, wearableId, workerOf } from '../stage.js';
import { beginPair, beginSet } from '../tasks.js';
import { carryTool, heldRun, startTool } from '../tools.js';
import { deviceId, inReach, toolIndex, workerIndex } from './names.js';
import { cause, type Reason, type Verbs } from './verbs.js';

export const HANDS: Verbs<'run' | 'carry' | 'set' | 'pair' | 'press' | 'turn' | 'touch' | 'tap' | 'close' | 'readout'> =
  {
    run: (stage, event) => {
      const tool = toolIndex(stage, event.tool);
      const worker = workerIndex(stage, event.by);
      if (stage.world.tools[tool]!.run !== null) return 'already running';
      if (stage.world.tools[tool]!.carried) return 'on the road';
      if (event.held && heldRun(stage, worker) !== undefined) return 'hands full';
      if (!inReach(stage, tool, worker)) return 'out of reach';
      cause(stage, stage.tracer?.add(event.by, 'hand.start', { held: event.held, tool: event.tool }));
      startTool(stage, tool, worker, event.held, event.forMs);
      return '';
    },

    carry: (stage, event) => {
      const tool = toolIndex(stage, event.tool);
      const { run, carried } = stage.world.tools[tool]!;
      if (run !== null) return 'already running';
      if (carried) return 'on the road';
      cause(stage, stage.tracer?.add(event.tool, 'hand.carry', {}));
      carryTool(stage, tool, event.forMs);
      return '';
    },

    set: (stage, event) => {
      const tool = toolIndex(stage, event.tool);
      if (ringIsHeld(stage, tool)) return 'ring in use';
      beginSet(stage, tool, event.toTenths, begins(stage, event.tool, 'set'));
      return '';
    },

    pair: (stage, event) => {
      const tool = toolIndex(stage, event.tool);
      const worker = workerIndex(stage, event.with);
      if (ringIsHeld(stage, tool)) return 'ring in use';
      if (!inReach(stage, tool, worker)) return 'out of reach';
      beginPair(stage, tool, worker, begins(stage, event.tool, 'pair'));
      return '';
    },

    press: (stage, event) => {
      const tool = toolIndex(stage, event.tool);
      if (ringIsHeld(stage, tool)) return 'ring in use';
      const { input, afterMs } = inputOf(RING_PRESSES, event.forMs);
      stage.world.tools[tool]!.ringFreeMs = stage.clock.nowMs + event.forMs;
      const n = cause(stage, stage.tracer?.add(event.tool, 'hand.press', { forMs: event.forMs }));
      stage.clock.arm(afterMs, { of: 'counter input', tool, input: { input }, cause: n });
      return '';
    },

    turn: (stage, event) => {
      const tool = toolIndex(stage, event.tool);
      if (ringIsHeld(stage, tool)) return 'ring in use';
      const n = cause(stage, stage.tracer?.add(event.tool, 'hand.turn', { detents: event.detents }));
      stage.world.tools[tool]!.ringFreeMs = stage.clock.nowMs + (Math.abs(event.detents) - 1) * event.everyMs;
      for (let made = 0; made < Math.abs(event.detents); made++) {
        const input = { input: 'turn', detents: Math.sign(event.detents) } as const;
        stage.clock.arm(made * event.everyMs, { of: 'counter input', tool, input, cause: n });
      }
      return '';
    },

    touch: (stage, event) => {
      const tool = toolIndex(stage, event.tool);
      const worker = workerIndex(stage, event.with);
      if (!inReach(stage, tool, worker)) return 'out of reach';
      const n = cause(stage, stage.tracer?.add(event.with, 'hand.touch', { tool: event.tool }));
      inputToCounter(stage, tool, { input: 'touch', peer: wearableId(stage, worker) }, n);
      inputToWearable(stage, worker, { input: 'touch', peer: counterId(tool) }, n);
      return '';
    },

    tap: (stage, event) => touchSurface(stage, event.worker, event.forMs),

    close: (stage, event) => touchSurface(stage, event.worker, shortestFor(SURFACE_TOUCHES, 'close')),

    readout: (stage, event) => {
      const id = deviceId(stage, event.device);
      const n = cause(stage, stage.tracer?.add(event.device, 'hand.readout', {}));
      if (isCounter(stage, id)) inputToCounter(stage, id - 1, { input: 'readout' }, n);
      else inputToWearable(stage, workerOf(stage, id), { input: 'readout' }, n);
      return '';
    },
  };

/** A hand is at the ring: in a task of several gestures, or still pressing or turning it. */
function ringIsHeld({ world, clock }: Stage, tool: number): boolean {
  return world.busy[tool]! || clock.nowMs < world.tools[tool]!.ringFreeMs;
}

function touchSurface(stage: Stage, name: string, forMs: number): Reason {
  const worker = workerIndex(stage, name);
  const { input, afterMs } = inputOf(SURFACE_TOUCHES, forMs);
  const n = cause(stage, stage.tracer?.add(name, 'hand.tap', { forMs }));
  stage.clock.arm(afterMs, { of: 'wearable input', worker, input: { input }, cause: n });
  return '';
}

function begins(stage: Stage, tool: string, verb: string): number {
  return cause(stage, stage.tracer?.add(tool, 'hand.begins', { verb }));
}
