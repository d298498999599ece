/** Version 2 of the file: every plan keeps the course of its search, so that one searched by the clock can be made again. */
export const course: readonly string[] = [`alter table plan add column course blob;`];
