// Bodies of sealed frames: the fields of a message, each in its place of the layout (TAL-1, TAL-5, PAI-1). Each kind has one
// sheet that is filled anew for each frame, since thousands cross in a day: what is written holds until the next.
import { placesOf, putNumber, sheetOf, takeNumber } from './bits.js';
import { ACCEPT_BITS, ACKNOWLEDGEMENT_BITS, bytesOf, REPORT_BITS, TALLY_BITS } from './layout.js';
import type { Acknowledgement, Report, Tally } from './messages.js';
import type { Accept } from './pairing-messages.js';

const TALLY = placesOf(TALLY_BITS);
const TALLY_SHEET = sheetOf(bytesOf(TALLY_BITS));
const REPORT = placesOf(REPORT_BITS);
const REPORT_SHEET = sheetOf(bytesOf(REPORT_BITS));
const ACKNOWLEDGEMENT = placesOf(ACKNOWLEDGEMENT_BITS);
const ACKNOWLEDGEMENT_SHEET = sheetOf(bytesOf(ACKNOWLEDGEMENT_BITS));
const ACCEPT = placesOf(ACCEPT_BITS);
const ACCEPT_SHEET = sheetOf(bytesOf(ACCEPT_BITS));

/** This and the other writers throw where a field cannot hold what the message says. */
export function writeTally(tally: Tally): Uint8Array {
  putNumber(TALLY_SHEET, TALLY.dose, tally.dose);
  putNumber(TALLY_SHEET, TALLY.triggerWindows, tally.triggerWindows);
  putNumber(TALLY_SHEET, TALLY.unratedWindows, tally.unratedWindows);
  putNumber(TALLY_SHEET, TALLY.magnitudeTenths, tally.magnitudeTenths);
  putNumber(TALLY_SHEET, TALLY.cell, tally.cell);
  putNumber(TALLY_SHEET, TALLY.flags, tally.flags);
  return TALLY_SHEET.bytes;
}

export function readTally(link: number, sequence: number, body: Uint8Array): Tally {
  TALLY_SHEET.bytes.set(body);
  return {
    frame: 'tally',
    link,
    sequence,
    dose: takeNumber(TALLY_SHEET, TALLY.dose),
    triggerWindows: takeNumber(TALLY_SHEET, TALLY.triggerWindows),
    unratedWindows: takeNumber(TALLY_SHEET, TALLY.unratedWindows),
    magnitudeTenths: takeNumber(TALLY_SHEET, TALLY.magnitudeTenths),
    cell: takeNumber(TALLY_SHEET, TALLY.cell),
    flags: takeNumber(TALLY_SHEET, TALLY.flags),
  };
}

export function writeReport(report: Report): Uint8Array {
  putNumber(REPORT_SHEET, REPORT.shortBursts, report.shortBursts);
  putNumber(REPORT_SHEET, REPORT.powerLosses, report.powerLosses);
  putNumber(REPORT_SHEET, REPORT.unclaimedDose, report.unclaimedDose);
  putNumber(REPORT_SHEET, REPORT.unclaimedWindows, report.unclaimedWindows);
  putNumber(REPORT_SHEET, REPORT.reserved, 0);
  return REPORT_SHEET.bytes;
}

/** Null where reserved bits are set. */
export function readReport(link: number, sequence: number, body: Uint8Array): Report | null {
  REPORT_SHEET.bytes.set(body);
  if (takeNumber(REPORT_SHEET, REPORT.reserved) !== 0) return null;
  return {
    frame: 'report',
    link,
    sequence,
    shortBursts: takeNumber(REPORT_SHEET, REPORT.shortBursts),
    powerLosses: takeNumber(REPORT_SHEET, REPORT.powerLosses),
    unclaimedDose: takeNumber(REPORT_SHEET, REPORT.unclaimedDose),
    unclaimedWindows: takeNumber(REPORT_SHEET, REPORT.unclaimedWindows),
  };
}

export function writeAcknowledgement(ack: Acknowledgement): Uint8Array {
  putNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.highest, ack.highest);
  putNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.highestReport, ack.highestReport);
  putNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.level, ack.level);
  putNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.closed, ack.closed ? 1 : 0);
  putNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.reserved, 0);
  putNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.leftTenths, ack.leftTenths);
  return ACKNOWLEDGEMENT_SHEET.bytes;
}

/** Null where reserved bits are set. */
export function readAcknowledgement(link: number, sequence: number, body: Uint8Array): Acknowledgement | null {
  ACKNOWLEDGEMENT_SHEET.bytes.set(body);
  if (takeNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.reserved) !== 0) return null;
  return {
    frame: 'ack',
    link,
    sequence,
    highest: takeNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.highest),
    highestReport: takeNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.highestReport),
    level: takeNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.level),
    leftTenths: takeNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.leftTenths),
    closed: takeNumber(ACKNOWLEDGEMENT_SHEET, ACKNOWLEDGEMENT.closed) === 1,
  };
}

export function writeAccept(accept: Accept): Uint8Array {
  putNumber(ACCEPT_SHEET, ACCEPT.counter, accept.counter);
  putNumber(ACCEPT_SHEET, ACCEPT.wearable, accept.wearable);
  return ACCEPT_SHEET.bytes;
}

export function readAccept(link: number, by: Accept['by'], body: Uint8Array): Accept {
  ACCEPT_SHEET.bytes.set(body);
  return {
    frame: 'accept',
    link,
    counter: takeNumber(ACCEPT_SHEET, ACCEPT.counter),
    wearable: takeNumber(ACCEPT_SHEET, ACCEPT.wearable),
    by,
  };
}
