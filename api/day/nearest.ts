/** The known word nearest to a mistyped one, for hints. Called wherever a name is refused. */

/** Undefined where nothing is near enough to be meant. Case and punctuation do not count; a unit left off is forgiven. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const plain = plainly(word);
  const scored = known
    .map((candidate) => ({ candidate, cost: cost(plain, plainly(candidate)) }))
    .toSorted((a, b) => a.cost - b.cost);
  const best = scored[0];
  return best && best.cost <= Math.max(1, plain.length / 3) ? best.candidate : undefined;
}

function plainly(word: string): string {
  return word
    .slice(0, 60)
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, "");
}

function cost(word: string, known: string): number {
  const startsAlike = word.length >= 4 && (known.startsWith(word) || word.startsWith(known));
  return startsAlike ? 0.5 : edits(word, known);
}

/** Insertions, deletions, substitutions and swaps of neighbours (optimal string alignment; Damerau 1964). */
function edits(a: string, b: string): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      const swap = a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? (before[j - 2] ?? Infinity) + 1 : Infinity;
      row.push(Math.min((previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + same, swap));
    }
    before = previous;
    previous = row;
  }
  return previous[b.length] ?? a.length;
}
