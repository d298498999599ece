/** What the command line tells its caller; README.md "Exit codes" lists the same. */
export const exitCode = {
  ok: 0,
  /** `verify`: the plan breaks a rule. Elsewhere: a mistake of this program. */
  fault: 1,
  badInput: 2,
  noPlan: 3,
} as const;
