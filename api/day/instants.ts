/** ISO 8601 instants in the workshop's zone, clock changes included. The only reader and writer of local times. */
import { DateTime, IANAZone } from "luxon";

export type InstantRead =
  | { readonly kind: "instant"; readonly millis: number }
  /** A local time that the clock change skips or repeats; both readings carry their offset. */
  | { readonly kind: "skipped" | "repeated"; readonly earlier: string; readonly later: string };

const MINUTE = 60_000;
const DAY = 86_400_000;

export function isZone(zone: string): boolean {
  return IANAZone.isValidZone(zone);
}

/** `text` has passed the contract's `instant`; `zone` is a valid IANA name. */
export function readInstant(text: string, zone: string): InstantRead {
  if (/(Z|[+-]\d\d:\d\d)$/.test(text)) return { kind: "instant", millis: Date.parse(text) };
  const local = Date.parse(`${text}Z`);
  const iana = IANAZone.create(zone);
  const offsets = [iana.offset(local - DAY), iana.offset(local + DAY)].map((minutes) => minutes * MINUTE);
  const readings = [...new Set(offsets)].map((offset) => local - offset).toSorted((a, b) => a - b);
  const shown = readings.filter((millis) => iana.offset(millis) * MINUTE === local - millis);
  const only = shown[0];
  if (only !== undefined && shown.length === 1) return { kind: "instant", millis: only };
  const [earlier, later] = readings.map((millis) => writeInstant(millis, zone));
  return { kind: shown.length === 0 ? "skipped" : "repeated", earlier: earlier ?? text, later: later ?? text };
}

/** To the second, with the zone's offset: 2026-03-10T08:31:00+00:00. */
export function writeInstant(millis: number, zone: string): string {
  return DateTime.fromMillis(Math.round(millis / 1000) * 1000, { zone }).toFormat("yyyy-MM-dd'T'HH:mm:ssZZ");
}
