// What the flash of a device is like; a test holds this to what the devices are told (src/port/flash.ts).

export const GEOMETRY = { pages: 16, pageBytes: 4096, wordBytes: 4, eraseMs: 100 } as const;

export const FLASH_BYTES = GEOMETRY.pages * GEOMETRY.pageBytes;

/** What a byte reads after an erase. */
export const BLANK = 0xff;

/** An erase counts as that many steps at which power may fail; a program as one a byte. */
export const ERASE_STEPS = 64;
