/** Text in lines of at most 100 columns, and the figures in it. Called by everything that prints. */

export const WIDTH = 100;

/** Breaks between words. `first` starts the first line, `rest` the following ones. A word longer than a line stands alone. */
export function wrap(text: string, first = "", rest = first): string[] {
  return wrapParts(text.split(" "), " ", first, rest);
}

/** Breaks between parts only; the separator's trailing blanks go at a break. */
export function wrapParts(parts: readonly string[], separator: string, first = "", rest = first): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  parts.forEach((part, i) => {
    const tail = i < parts.length - 1 ? separator.trimEnd() : "";
    const next = empty ? line + part : line + separator + part;
    if (!empty && columns(next + tail) > WIDTH) {
      lines.push(line + separator.trimEnd());
      line = rest + part;
    } else line = next;
    empty = false;
  });
  return [...lines, line].map((one) => one.trimEnd());
}

/** Code points: none of our words needs more than one column each. */
function columns(text: string): number {
  return Array.from(text).length;
}

export function pad(text: string, width: number): string {
  return text + " ".repeat(Math.max(0, width - columns(text)));
}

/** At most so many decimals, without trailing zeros: 17, 17.5. */
export function figure(value: number, decimals = 1): string {
  return String(Number(value.toFixed(decimals)) + 0);
}

/** Always two decimals: 12.40 EUR. */
export function money(amount: number, currency: string): string {
  return `${amount.toFixed(2)} ${currency}`;
}

/** 25 min, 1 h 25 min, 15 h. Whole minutes, as the clock times beside it; at least 1. */
export function duration(minutes: number): string {
  const whole = Math.max(1, Math.round(minutes));
  const hours = Math.floor(whole / 60);
  if (hours === 0) return `${whole} min`;
  return whole % 60 === 0 ? `${hours} h` : `${hours} h ${whole % 60} min`;
}

export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** [1, 2, 3, 5] -> "1–3, 5". */
export function itemRanges(items: readonly number[]): string {
  const sorted = [...new Set(items)].toSorted((a, b) => a - b);
  const ranges: [number, number][] = [];
  for (const item of sorted) {
    const last = ranges.at(-1);
    if (last && item === last[1] + 1) last[1] = item;
    else ranges.push([item, item]);
  }
  return ranges.map(([from, to]) => (from === to ? String(from) : `${from}–${to}`)).join(", ");
}
