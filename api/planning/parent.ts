/**
 * What a child process that plans owes to the process that began it. A terminal's Ctrl-C and hang-up reach every process in
 * it: whether planning ends by them is for the parent to say, which wants the best plan so far first.
 */
export function heedOnlyTheParent(): void {
  for (const signal of ["SIGINT", "SIGHUP"] as const) process.on(signal, () => undefined);
  // The parent is gone: nobody waits for the answer.
  process.on("disconnect", () => process.exit(0));
}
