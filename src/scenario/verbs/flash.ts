// flash: a page of the flash of a device goes bad, and stays so. As a rate it is the next page each time, after the last the
// first.
import { integer } from '../fields/number.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { fault } from './fault.js';

/** KEP: 16 pages of 4 KiB; a test holds it to the flash of src/port. */
export const PAGES = 16;

export const flash = fault(
  'flash',
  { flash: nameOf('tool or worker'), 'bad page': integer(0, PAGES - 1, 'the page that goes bad') },
  {
    event: ({ flash: device, 'bad page': page }, _, time) => {
      return { do: 'flash', device: device.value, page: (page.value + time) % PAGES };
    },
    write: ({ device, page }) => [
      ['flash', flowText(device)],
      ['bad page', `${page}`],
    ],
  },
);
