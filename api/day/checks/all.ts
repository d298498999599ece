/** Every trade check of a day file, in the order a reader of the file meets its parts. Called by read-day.ts. */
import type { Check } from "./check.ts";
import { windowCheck, windowReachCheck } from "./coat-windows.ts";
import { heldOrderCheck, heldOvenCheck, heldOverlapCheck, pinnedCheck } from "./held-loads.ts";
import { heldPansCheck, heldPlacesCheck, heldTwiceCheck, inForceCheck } from "./held-pans.ts";
import { coatOvensCheck, duplicateIdCheck, groupsCheck, panCoatingCheck, panMaterialCheck } from "./ids.ts";
import { instantsCheck, zoneCheck } from "./instants.ts";
import { massCheck } from "./mass.ts";
import { panFitCheck } from "./pan-fit.ts";
import { calorificCheck, lengthsCheck, specificHeatCheck, temperaturesCheck } from "./plausible.ts";
import { panStateCheck, promiseReachCheck, promisesCheck, ticketPromisesCheck, waitCheck } from "./promises.ts";
import { areaOvenCheck, cleanBurnCheck, doorLimitCheck, handleCheck, quantityCheck } from "./shop-figures.ts";
import { staffingCheck } from "./staffing.ts";
import { swappedDateCheck } from "./swapped-date.ts";

export const allChecks: readonly Check[] = [
  zoneCheck,
  instantsCheck,
  staffingCheck,
  swappedDateCheck,
  temperaturesCheck,
  calorificCheck,
  handleCheck,
  cleanBurnCheck,
  groupsCheck,
  specificHeatCheck,
  duplicateIdCheck,
  windowCheck,
  windowReachCheck,
  coatOvensCheck,
  areaOvenCheck,
  doorLimitCheck,
  lengthsCheck,
  quantityCheck,
  panCoatingCheck,
  panMaterialCheck,
  panStateCheck,
  promisesCheck,
  ticketPromisesCheck,
  promiseReachCheck,
  waitCheck,
  panFitCheck,
  massCheck,
  heldOvenCheck,
  heldOrderCheck,
  heldOverlapCheck,
  pinnedCheck,
  heldPansCheck,
  heldTwiceCheck,
  heldPlacesCheck,
  inForceCheck,
];
