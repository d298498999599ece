/** The shop: its ovens, coatings, prices and hours, each on a page of its own. */
import { useEffect, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import type { DayFile } from "../../api/contract/day.ts";
import { ovenName } from "../parts/day-lookup.ts";
import { Notice } from "../parts/notice.tsx";
import { attempt } from "../shell/live.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { readDay } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { CalendarForms } from "./calendar.tsx";
import { CoatingForm } from "./coating-form.tsx";
import { Hours } from "./hours.tsx";
import { MetalsForm } from "./metals.tsx";
import { MixingForm } from "./mixing.tsx";
import { NewCoating, NewOven } from "./new-entry.tsx";
import { OvenForm } from "./oven-form.tsx";
import { PriceForms, WorkForms } from "./settings.tsx";
import { WindowsLine } from "./windows-line.tsx";

/** `rest`: "oven/box", "coating/two-coat", "prices", "rules", …; else the overview. */
export function Shop({ live: { turn }, rest }: ScreenParts) {
  const w = words.shop;
  const [day, setDay] = useState<DayFile | null>(null);
  useEffect(() => void attempt(async () => setDay(await readDay())), [turn]);
  const [part = "", ...names] = rest.split("/");
  const shown = day === null ? null : partOf(part, names.join("/"), day, turn);
  return (
    <>
      <h1>{w.title}</h1>
      <Notice kind="plain">{w.caution}</Notice>
      {shown !== null && (
        <p>
          <a class="button second" href="#/shop">
            {w.back}
          </a>
        </p>
      )}
      {day !== null && (shown ?? <Overview day={day} />)}
    </>
  );
}

function partOf(part: string, name: string, day: DayFile, turn: number): ComponentChildren {
  switch (part) {
    case "oven":
      return <OvenForm key={name} id={name} day={day} turn={turn} />;
    case "coating":
      return <CoatingForm key={name} id={name} day={day} turn={turn} />;
    case "new-oven":
      return <NewOven day={day} />;
    case "new-coating":
      return <NewCoating day={day} />;
    case "rules":
      return <MixingForm day={day} turn={turn} />;
    case "metals":
      return <MetalsForm turn={turn} />;
    case "calendar":
      return <CalendarForms timeZone={day.timeZone} turn={turn} />;
    case "prices":
      return <PriceForms day={day} turn={turn} />;
    case "work":
      return <WorkForms turn={turn} />;
    case "hours":
      return <Hours timeZone={day.timeZone} turn={turn} />;
    default:
      return null;
  }
}

function Overview({ day }: { readonly day: DayFile }) {
  const w = words.shop;
  return (
    <>
      <p>{w.lead}</p>
      <h2>{w.ovens}</h2>
      <ul class="ways">
        {day.ovens.map(({ id, space }) => (
          <Way to={`oven/${encodeURIComponent(id)}`} name={ovenName(day, id)}>
            {space.kind === "shelves" ? w.ofShelves(space.shelves.length) : `${space.dm2} dm²`}
          </Way>
        ))}
        <Way to="new-oven" name={w.newOven} />
      </ul>
      <h2>{w.coatings}</h2>
      <ul class="ways">
        {day.coatings.map(({ id, name, coats }) => (
          <Way to={`coating/${encodeURIComponent(id)}`} name={name ?? id}>
            {w.ofCoats(coats.length)}
          </Way>
        ))}
        <Way to="new-coating" name={w.newCoating} />
      </ul>
      <WindowsLine coatings={day.coatings} />
      <h2>{w.places}</h2>
      <ul class="ways">
        <Way to="prices" name={w.prices} />
        <Way to="work" name={w.work} />
        <Way to="hours" name={w.hours} />
        <Way to="rules" name={w.mixing.title} />
        <Way to="metals" name={w.metals.title} />
        <Way to="calendar" name={w.calendar.name} />
      </ul>
    </>
  );
}

interface WayParts {
  readonly to: string;
  readonly name: string;
  readonly children?: ComponentChildren;
}

function Way({ to, name, children }: WayParts) {
  return (
    <li>
      <a class="button second" href={`#/shop/${to}`}>
        {name}
      </a>
      {children !== undefined && <span class="fine">{children}</span>}
    </li>
  );
}
