/** Version 1 of the file: the shop's day as rows, its events, its plans, and what the service needs to answer twice alike. */

/** Rows that people edit all have the same columns, so that one change recorder serves them all and any of them can be undone. */
const edited = (table: string, states: readonly string[]): string => `
  create table ${table} (
    id text primary key not null,
    place integer not null,
    body text not null check (json_valid(body)),
    state text not null check (state in (${states.map((state) => `'${state}'`).join(", ")})),
    note text not null,
    follows text not null,
    version integer not null check (version > 0)
  ) strict;`;

const panStates = ["waiting", "on hold", "finished", "failed", "withdrawn", "handed over"];
const loadStates = ["planned", "pinned", "firing", "fired", "interrupted", "dropped"];

export const first: readonly string[] = [
  edited("setting", ["in use"]),
  edited("coating", ["in use"]),
  edited("oven", ["in use", "out of use"]),
  edited("pan", panStates),
  edited("load", loadStates),
  `create table shop (
    id integer primary key check (id = 1),
    revision integer not null,
    in_force text
  ) strict;`,
  `insert into shop (id, revision, in_force) values (1, 0, null);`,
  `create table event (
    id integer primary key autoincrement,
    at text not null,
    who text not null,
    kind text not null,
    subject text not null,
    body text not null check (json_valid(body)),
    before text not null check (json_valid(before)),
    undoes integer unique references event (id)
  ) strict;`,
  `create trigger event_stays before update on event begin select raise(abort, 'events are only added'); end;`,
  `create trigger event_remains before delete on event begin select raise(abort, 'events are only added'); end;`,
  `create table plan (
    id text primary key not null,
    kind text not null check (kind in ('plan', 'replan', 'quote')),
    state text not null check (state in ('queued', 'searching', 'done', 'stopped', 'cut short', 'failed')),
    made_at text not null,
    revision integer not null,
    replaces text references plan (id),
    day text not null check (json_valid(day)),
    request text not null check (json_valid(request)),
    version text not null,
    plan text check (json_valid(plan)),
    cost real,
    bound real,
    seconds real not null,
    faults text check (json_valid(faults)),
    extra text not null check (json_valid(extra)),
    accepted_at text
  ) strict;`,
  `create table reading (
    id integer primary key autoincrement,
    at text not null,
    oven text not null,
    load text,
    body text not null check (json_valid(body))
  ) strict;`,
  `create index reading_by_oven on reading (oven, at);`,
  `create table closed_day (
    id integer primary key autoincrement,
    title text not null,
    closed_at text not null,
    day text not null check (json_valid(day)),
    plan text references plan (id),
    summary text not null check (json_valid(summary)),
    first_event integer not null,
    last_event integer not null
  ) strict;`,
  `create table answered (
    key text primary key not null,
    asked text not null,
    status integer not null,
    headers text not null check (json_valid(headers)),
    body text not null,
    at text not null
  ) strict;`,
  `create table session (
    token_hash text primary key not null,
    until text not null
  ) strict;`,
];
