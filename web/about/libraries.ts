/** What the program is made with when it runs: name, version, licence as each library's own package says. */
export const libraries: readonly (readonly [library: string, version: string, licence: string])[] = [
  ["csv-parse", "7.0.3", "MIT"],
  ["csv-stringify", "6.9.0", "MIT"],
  ["express", "5.3.0", "MIT"],
  ["express-rate-limit", "8.7.5", "MIT"],
  ["helmet", "8.3.0", "MIT"],
  ["ics", "3.12.0", "ISC"],
  ["javascript-lp-solver", "1.0.3", "Unlicense"],
  ["kysely", "0.28.19", "MIT"],
  ["libsql", "0.5.29", "MIT"],
  ["luxon", "3.7.2", "MIT"],
  ["pino", "10.4.0", "MIT"],
  ["pino-http", "11.0.0", "MIT"],
  ["preact", "10.29.8", "MIT"],
  ["tsx", "4.23.15", "MIT"],
  ["vite", "8.3.8", "MIT"],
  ["zod", "4.6.7", "MIT"],
];
