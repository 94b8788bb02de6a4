// Everything that must hold in every run, in the order in which it is told of.
import { acknowledgedIsCharged } from './acknowledged-is-charged.js';
import { acksTakenOnce } from './acks-taken-once.js';
import { alertGoesOn } from './alert-goes-on.js';
import { alertWithItsTally } from './alert-with-its-tally.js';
import { allCharged } from './all-charged.js';
import { allDelivered } from './all-delivered.js';
import { chargedAsCounted } from './charged-as-counted.js';
import { countedAsRun } from './counted-as-run.js';
import { countedInOnePlace } from './counted-in-one-place.js';
import { doseOfMagnitude } from './dose-of-magnitude.js';
import { heardWasSent } from './heard-was-sent.js';
import type { Invariant } from './invariant.js';
import { keptInTime } from './kept-in-time.js';
import { ledgerNeverShrinks } from './ledger-never-shrinks.js';
import { lossesAreTold } from './losses-are-told.js';
import { magnitudeOutlastsPower } from './magnitude-outlasts-power.js';
import { noEarlyAlert } from './no-early-alert.js';
import { noSuddenDose } from './no-sudden-dose.js';
import { nonceUsedOnce } from './nonce-used-once.js';
import { openedByItsWearable } from './opened-by-its-wearable.js';
import { ownSessionsOnly } from './own-sessions-only.js';
import { refusedChangesNothing } from './refused-changes-nothing.js';
import { sessionsEndForAReason } from './sessions-end-for-a-reason.js';
import { sessionsInOrder } from './sessions-in-order.js';
import { shiftIsTheSum } from './shift-is-the-sum.js';
import { silentWithoutPower } from './silent-without-power.js';
import { staleInTime } from './stale-in-time.js';
import { tallyAsCounted } from './tally-as-counted.js';

export const INVARIANTS: readonly Invariant[] = [
  countedAsRun,
  keptInTime,
  doseOfMagnitude,
  magnitudeOutlastsPower,
  countedInOnePlace,
  sessionsInOrder,
  sessionsEndForAReason,
  openedByItsWearable,
  tallyAsCounted,
  lossesAreTold,
  nonceUsedOnce,
  heardWasSent,
  refusedChangesNothing,
  silentWithoutPower,
  noSuddenDose,
  chargedAsCounted,
  ownSessionsOnly,
  ledgerNeverShrinks,
  shiftIsTheSum,
  acknowledgedIsCharged,
  acksTakenOnce,
  noEarlyAlert,
  alertWithItsTally,
  alertGoesOn,
  staleInTime,
  allCharged,
  allDelivered,
];
