/** Open labels, the lowest floor first; of equals the one that has come furthest. */
import type { Label } from "./label.ts";

export class LabelQueue {
  readonly #heap: Label[] = [];

  get size(): number {
    return this.#heap.length;
  }

  /** Infinity when empty. */
  get lowest(): number {
    return this.#heap[0]?.floor ?? Infinity;
  }

  push(label: Label): void {
    const heap = this.#heap;
    let at = heap.length;
    heap.push(label);
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (!before(label, heap[above]!)) break;
      heap[at] = heap[above]!;
      at = above;
    }
    heap[at] = label;
  }

  pop(): Label | undefined {
    const heap = this.#heap;
    const top = heap[0];
    const last = heap.pop();
    if (last === undefined || heap.length === 0) return top;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= heap.length) break;
      if (below + 1 < heap.length && before(heap[below + 1]!, heap[below]!)) below++;
      if (!before(heap[below]!, last)) break;
      heap[at] = heap[below]!;
      at = below;
    }
    heap[at] = last;
    return top;
  }
}

function before(one: Label, other: Label): boolean {
  return one.floor < other.floor || (one.floor === other.floor && one.lastDone > other.lastDone);
}
