/** Instants as the shop's clock shows them. The plan's instants carry the shop's offset, so their text is the shop's time. */

/** "07:30" of an instant that carries its offset. */
export function clockOf(instant: string): string {
  return instant.slice(11, 16);
}

export function millisOf(instant: string): number {
  return Date.parse(instant);
}

/** The instant moved by minutes, still in its own offset. */
export function movedBy(instant: string, minutes: number): string {
  const zone = /(Z|[+-]\d\d:\d\d)$/.exec(instant)?.[0] ?? "Z";
  const local = Date.parse(`${instant.slice(0, instant.length - zone.length)}Z`) + minutes * 60_000;
  return new Date(local).toISOString().slice(0, 19) + zone;
}

/** The hour's clock text for a moment, in the offset of `like`. */
export function clockAt(millis: number, like: string): string {
  return clockOf(movedBy(like, (millis - Date.parse(like)) / 60_000));
}

export function dateOf(instant: string): string {
  return instant.slice(0, 10);
}

/** The clock, with the date before it where that is another day than `dayOf`. */
export function whenOf(instant: string, dayOf: string): string {
  return dateOf(instant) === dateOf(dayOf) ? clockOf(instant) : `${dateOf(instant)} ${clockOf(instant)}`;
}
