// Conditions that an expectation can be about: what a display shows, what state a device is in.
import { nameOf, word } from '../fields/text.js';
import { subject } from './subject.js';

/** Which screen, which icon, or, with a comparison, which number. */
export const display = subject(
  'display',
  nameOf('tool or worker'),
  { screen: word('the name of a screen').optional(), icon: word('the name of an icon').optional() },
  'maybe',
  ({ value: device }, { screen, icon }, { scope, words }) => {
    const { screens, icons } = scope.isTool(device) ? words.counter : words.wearable;
    if (screen !== undefined && icon !== undefined) {
      scope.problems.at(icon.node, 'unexpected', '"screen" and "icon" exclude each other', 'one expectation for each');
      return null;
    }
    if (screen !== undefined) {
      scope.word(screen.node, 'screen', screen.value, new Set(screens));
      return { condition: { of: 'display screen', device, is: screen.value } };
    }
    if (icon === undefined) return { quantity: { of: 'display value', device }, unit: 'decimal' };
    scope.word(icon.node, 'icon', icon.value, new Set(icons));
    return { condition: { of: 'display icon', device, has: icon.value } };
  },
);

export const state = subject(
  'state',
  nameOf('tool or worker'),
  { region: word('the name of a region of the statechart'), is: word('the name of a state') },
  'no',
  ({ value: device }, { region, is }, { scope, words }) => {
    const { regions } = scope.isTool(device) ? words.counter : words.wearable;
    scope.word(region.node, 'region', region.value, new Set(Object.keys(regions)));
    if (Object.hasOwn(regions, region.value)) scope.word(is.node, 'state', is.value, new Set(regions[region.value]));
    return { condition: { of: 'state', device, region: region.value, is: is.value } };
  },
);
