// What a device is called where a record is told of.
import { type Devices, toolOf, workerOf } from '../../trace/devices.js';

/** "breaker's counter", "Edda's wearable", or what is known of a device that the day does not have. */
export function deviceText(devices: Devices, identity: number): string {
  const [tool, worker] = [toolOf(devices, identity), workerOf(devices, identity)];
  if (tool !== null) return `${tool}'s counter`;
  return worker === null
    ? `a device of the identity ${identity}, which this day does not have`
    : `${worker}'s wearable`;
}
