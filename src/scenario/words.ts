// Words of a scenario that other folders own: what a requirement, an event, a display or a state is called. Whoever puts
// the program together hands them in, so that a misspelt one is refused and never silently holds or silently fails.

export interface DeviceWords {
  readonly screens: readonly string[];
  readonly icons: readonly string[];
  /** Regions of the device's statechart, each with the names of its states. */
  readonly regions: Readonly<Record<string, readonly string[]>>;
}

export interface Words {
  /** Requirement identifiers, MAG-1 … WEA-5. */
  readonly requirements: readonly string[];
  /** Kinds of trace event. */
  readonly kinds: readonly string[];
  /** Alert levels that a wearable can raise. */
  readonly levels: readonly string[];
  /** Kinds of frame that cross the air. */
  readonly frames: readonly string[];
  /** Reasons under which dropped frames are counted. */
  readonly refusals: readonly string[];
  readonly counter: DeviceWords;
  readonly wearable: DeviceWords;
}
