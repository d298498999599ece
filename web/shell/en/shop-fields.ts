/** What each figure of the shop is, why it matters, and where it can be had. Keys are the field's place in its form. */
export interface FieldWords {
  readonly label: string;
  readonly why: string;
  readonly measure?: string;
}

export const shopFields: Readonly<Record<string, FieldWords>> = {
  name: { label: "Name", why: "As everybody in the shop calls it." },
  id: { label: "Name of the shelf", why: "On load sheets." },
  "cycle.burnerKW": {
    label: "Burner, full fire",
    why: "Gross heat of the gas it burns: how fast the oven warms and what it costs.",
    measure:
      "Gas meter over 10 minutes of full fire, nothing else burning: units × kWh per unit × 6. Or the plate's gross input.",
  },
  "cycle.efficiency": {
    label: "Share of the heat that reaches the chamber",
    why: "The rest goes up the flue.",
    measure: "From meter readings of logged firings; the burner technician's flue test is a start.",
  },
  "cycle.heatCapacityKJPerK": {
    label: "Heat the oven stores",
    why: "Walls, racks and shelves warm with every firing. Most of a firing's gas goes here.",
    measure:
      "Stopwatch and thermometer: heat it empty at full fire and note the chamber every 2 minutes, then calibrate.",
  },
  "cycle.wallLossWPerK": {
    label: "Loss through the walls",
    why: "What holding costs each minute, and how warm the oven is in an hour.",
    measure: "Hot, empty, shut, burner and fan off: the chamber every 10 minutes, then calibrate.",
  },
  "cycle.exhaustWPerK": {
    label: "Loss by the exhaust, burner on",
    why: "The fan takes heat out while it purges and burns. Never throttle it to save gas.",
    measure: "Gas meter over a long hold: what it burns beyond the walls' loss. Or fan's m³/h × 0.34.",
  },
  "cycle.coastExhaustWPerK": {
    label: "Loss by the exhaust, burner off",
    why: "How fast the chamber falls before the door opens.",
    measure: "After burner off, door shut, fan on: the chamber every minute, then calibrate.",
  },
  "cycle.filmWPerM2K": {
    label: "Heat from air to metal",
    why: "How far the metal lags behind the air: the soak of a heavy pan begins later.",
    measure: "Infrared thermometer on one coated pan every 3 minutes of a firing, then calibrate.",
  },
  "cycle.doorTauMinutes": {
    label: "Cooling with the door open",
    why: "How much heat loading costs.",
    measure: "Hot and empty, door open: minutes until the difference to the room is down to 37 %.",
  },
  "cycle.purgeMinutes": {
    label: "Purge before lighting",
    why: "Blows out gas and solvent. Never shorter than the plate says.",
    measure: "Oven's plate and its controls.",
  },
  "cycle.loadMinutes": { label: "Loading, door open", why: "The chamber falls meanwhile.", measure: "Stopwatch." },
  "cycle.unloadMinutes": { label: "Unloading, door open", why: "The chamber falls meanwhile.", measure: "Stopwatch." },
  "cycle.doorLimitC": {
    label: "Door stays shut above",
    why: "Nobody opens a hotter chamber. Above every set-point: the shop loads and unloads hot.",
    measure: "The shop's own rule and the oven's plate.",
  },
  "cycle.setPointMaxC": {
    label: "Highest set-point",
    why: "No plan asks for more.",
    measure: "Oven's plate; the high limit must stand above it.",
  },
  "cycle.setPointStepC": { label: "Set-points in steps of", why: "What the control can be set to." },
  "cycle.guardC": {
    label: "Guard at both ends of a window",
    why: "Stands for the oven's unevenness and the thermometer's error. More is safer and lets fewer pans share.",
    measure:
      "Shelf survey with the infrared thermometer: half the spread within a shelf, plus the thermometer's error.",
  },
  "cycle.earlyMinutes": { label: "Burner may go off early by", why: "Every window must still be kept." },
  "cycle.slackMinutes": {
    label: "Burner may go off late by",
    why: "Nobody hits the minute. More is calmer and lets fewer pans share.",
  },
  "cycle.gasKW": {
    label: "Gas while the door is closed",
    why: "All that is known of gas in a fixed cycle.",
    measure: "Gas meter over a whole firing: kWh by hours.",
  },
  maxLoadKg: { label: "Most weight in all", why: "Racks and oven floor.", measure: "Oven's plate. Empty: no limit." },
  maxSolventMl: {
    label: "Most solvent of a load",
    why: "Too much solvent in a batch oven can explode. The exhaust must run.",
    measure: "Oven's plate. Empty only where no wet coat is ever baked.",
  },
  "space.gapCm": { label: "Gap between pans and to edges", why: "Air must pass on every side." },
  "space.dm2": { label: "Area for pans", why: "Pans are placed freely.", measure: "Width × depth, in dm²." },
  widthCm: { label: "Width", why: "Usable, left to right.", measure: "Tape measure." },
  depthCm: { label: "Depth", why: "Usable, door to back.", measure: "Tape measure." },
  clearHeightCm: { label: "Clear height", why: "A taller pan does not go in.", measure: "Tape measure." },
  maxKg: { label: "Most weight", why: "Empty: no limit." },
  offsetC: {
    label: "Warmer than the chamber by",
    why: "Minus: cooler. Decides which shelf gets the iron.",
    measure: "Shelf survey: like pans on every shelf, infrared thermometer, the oven steady.",
  },
  gasPerKWh: { label: "Gas, a kWh", why: "Gross, as on the bill.", measure: "Bill: price a unit by kWh a unit." },
  crewPerHour: { label: "An hour of the day's length", why: "What it is worth to be done earlier." },
  latePerPanHour: { label: "A pan late, an hour", why: "What a broken promise is worth." },
  rushLatePerPanHour: { label: "A rush pan late, an hour", why: "Empty: as any other pan." },
  leftOverPerPan: { label: "A pan left over", why: "What it costs not to bake it today." },
  movePerPan: { label: "A pan moved by a new plan", why: "More keeps the plan in use as it is." },
  grossKWhPerUnit: { label: "Heat of a unit", why: "Gross.", measure: "Bill or the supplier's sheet." },
  kgCO2ePerKWh: { label: "CO₂e of a kWh", why: "For the day's figure only.", measure: "Bill or the national factors." },
  unitsLeft: { label: "Left in the bottle", why: "Empty: mains.", measure: "Scale: weight less tare." },
  maxDrawKW: {
    label: "Most that can be drawn",
    why: "A cold or nearly empty bottle gives less. Empty: no limit.",
    measure: "Supplier's table for bottle size and temperature.",
  },
  sprayers: { label: "Sprayers", why: "Who can spray at once. 0: no limit." },
  changeoverMinutes: { label: "Change of the gun", why: "Between two coats.", measure: "Stopwatch." },
  handleAtC: { label: "Cool enough to handle", why: "Then inspection and the next coat begin." },
  coolFilmWPerM2K: {
    label: "Heat from metal to room air",
    why: "How long pans cool on the rack.",
    measure: "Infrared thermometer on one pan on the rack: minutes from 200 °C to 100 °C.",
  },
  benches: { label: "Benches", why: "How many strip and clean at once. 0: no limit." },
  finishMinutes: { label: "After the last inspection", why: "Polish, assemble, pack." },
  ambientC: { label: "Room", why: "A cold oven begins here.", measure: "Wall thermometer." },
  sprayMinutes: { label: "Spraying a pan", why: "0: nothing is sprayed.", measure: "Stopwatch." },
  flashMinutes: { label: "Flash-off, at least", why: "Solvent must leave before the oven.", measure: "Data sheet." },
  maxWaitMinutes: {
    label: "Wet, at most",
    why: "End of spraying to door closed. Empty: no limit.",
    measure: "Data sheet.",
  },
  solventMlPerM2: { label: "Solvent", why: "Summed against the oven's plate.", measure: "Data sheet and gun setting." },
  inspectMinutes: { label: "Inspection", why: "After cooling, before the next coat.", measure: "Stopwatch." },
  mixGroup: { label: "Mix group", why: "Some groups may not share a firing." },
  paint: { label: "What is in the gun", why: "Coats that say the same need no change of the gun. Empty: its own." },
  ovens: { label: "Only into these ovens", why: "None ticked: any oven." },
  lastGroups: {
    label: "Fired last",
    why: "Mix groups that stood in it before the day: they may call for a clean burn.",
  },
  specificHeatJPerKgK: {
    label: "Heat it takes",
    why: "More heat: the metal warms later.",
    measure: "Tables of metals: aluminium about 900, steel about 490, cast iron about 460, copper 385.",
  },
  "burn.setPointC": { label: "Burnt at", why: "Hot enough that nothing is left.", measure: "Maker's advice." },
  "burn.holdMinutes": { label: "Held for", why: "It costs gas and oven time.", measure: "Maker's advice." },
  "bake.metalLowC": { label: "Cures from", why: "Colder, it never cures.", measure: "Data sheet: metal temperature." },
  "bake.metalHighC": { label: "Spoils above", why: "Hotter, it browns.", measure: "Data sheet: metal temperature." },
  "bake.soakLeastMinutes": {
    label: "Soak, at least",
    why: "Less is soft and lets go. 0: the metal must get there, and need not stay.",
    measure: "Data sheet.",
  },
  "bake.soakMostMinutes": { label: "Soak, at most", why: "More is brittle.", measure: "Data sheet." },
  "bake.cycleMinutes": {
    label: "In a fixed cycle",
    why: "Door closed to door open. Empty: it goes into no oven with a fixed cycle.",
    measure: "The shop's habit.",
  },
};
