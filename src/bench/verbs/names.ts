// Who and what an event names, in the world: indices of tools and workers, identities of devices, places.
import { counterId, type Stage, wearableId } from '../stage.js';

/** Throws where the day has no such tool; the reader has seen to that. */
export function toolIndex(stage: Stage, name: string): number {
  const index = stage.day.tools.findIndex((tool) => tool.name === name);
  if (index === -1) throw new Error(`the day has no tool ${name}`);
  return index;
}

export function workerIndex(stage: Stage, name: string): number {
  const index = stage.day.workers.findIndex((worker) => worker.name === name);
  if (index === -1) throw new Error(`the day has no worker ${name}`);
  return index;
}

/** Identity of the counter of a tool, or of the wearable of a worker. */
export function deviceId(stage: Stage, name: string): number {
  const tool = stage.day.tools.findIndex((spec) => spec.name === name);
  return tool === -1 ? wearableId(stage, workerIndex(stage, name)) : counterId(tool);
}

export function inReach(stage: Stage, tool: number, worker: number): boolean {
  return stage.world.tools[tool]!.place === stage.world.workers[worker]!.place;
}

export function placeOf(stage: Stage, name: string): number {
  return placed(stage, name).place;
}

export function moveTo(stage: Stage, name: string, place: number): void {
  placed(stage, name).place = place;
}

function placed(stage: Stage, name: string): { place: number } {
  const tool = stage.day.tools.findIndex((spec) => spec.name === name);
  return stage.world.tools[tool] ?? stage.world.workers[workerIndex(stage, name)]!;
}
