/** Where the shop stands after the loads timed so far: ovens, hands, pans, money. Copied, never shared. */
import type { DayModel } from "../day/day-model.ts";
import { Calendar } from "./calendar.ts";

export class ShopState {
  /** Per oven: end of its last firing, chamber °C at that instant, whether a clean burn is owed. */
  readonly ovenFree: Float64Array;
  readonly ovenChamberC: Float64Array;
  readonly ovenSoiled: Uint8Array;
  /** Per oven: how many of its held loads have been passed. */
  readonly heldPassed: Int32Array;
  /** Per pan: position among its due coats of the next one, and when that coat may begin. */
  readonly panStep: Int32Array;
  readonly panRelease: Float64Array;
  /** Per ticket: hand-over of its finished pans so far, and how many pans are still open. */
  readonly ticketReady: Float64Array;
  readonly ticketOpen: Int32Array;
  readonly bench: Calendar;
  readonly booth: Calendar;
  gasKWh = 0;
  /** Over all bakes: minutes from planFrom to their done. */
  doneMinutes = 0;
  lastDone: number;
  /** Cost of lateness of the tickets as far as their finished pans show it. */
  lateCost = 0;
  /** Pans moved from where the plan in force had them. */
  moved = 0;
  /** Held loads or tasks that could not be kept: such a timetable is worthless. */
  broken = 0;

  constructor(day: DayModel) {
    const { request } = day;
    const ovens = request.ovens.length;
    this.ovenFree = new Float64Array(ovens);
    this.ovenChamberC = new Float64Array(ovens);
    this.ovenSoiled = new Uint8Array(ovens);
    this.heldPassed = new Int32Array(ovens);
    this.panStep = new Int32Array(day.pans.length);
    this.panRelease = new Float64Array(day.pans.length);
    this.ticketReady = new Float64Array(day.tickets.length);
    this.ticketOpen = new Int32Array(day.tickets.length);
    const sprays = day.pans.reduce((sum, pan) => sum + pan.due.length, 0);
    this.bench = new Calendar(request.benches, day.pans.length, 0);
    this.booth = new Calendar(request.booth.sprayers, sprays, request.booth.changeoverMinutes);
    this.lastDone = request.planFromMinute;
  }

  copyFrom(other: ShopState): void {
    this.ovenFree.set(other.ovenFree);
    this.ovenChamberC.set(other.ovenChamberC);
    this.ovenSoiled.set(other.ovenSoiled);
    this.heldPassed.set(other.heldPassed);
    this.panStep.set(other.panStep);
    this.panRelease.set(other.panRelease);
    this.ticketReady.set(other.ticketReady);
    this.ticketOpen.set(other.ticketOpen);
    this.bench.copyFrom(other.bench);
    this.booth.copyFrom(other.booth);
    this.gasKWh = other.gasKWh;
    this.doneMinutes = other.doneMinutes;
    this.lastDone = other.lastDone;
    this.lateCost = other.lateCost;
    this.moved = other.moved;
    this.broken = other.broken;
  }
}
