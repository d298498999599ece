/** The page: which place is shown, the newest search, and the clock. */
import { render } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { DayFile } from "../api/contract/day.ts";
import type { SearchAnswer } from "../api/contract/searching.ts";
import { isRunning } from "./how-good.tsx";
import { LoadSheet } from "./load-sheet.tsx";
import {
  Refused,
  acceptSearch,
  enter,
  fieldText,
  newestSearch,
  readRequest,
  readSearch,
  saidOf,
  startSearch,
  stopSearch,
  watchSearch,
} from "./service.ts";
import { Today } from "./today.tsx";
import { WaitingPans } from "./waiting-pans.tsx";
import { words } from "./words-en.ts";

function Page() {
  const place = usePlace();
  const now = useNow();
  const [search, setSearch] = useState<SearchAnswer | null>(null);
  const [day, setDay] = useState<DayFile | null>(null);
  const [trouble, setTrouble] = useState<unknown>(null);
  const [read, setRead] = useState(false);
  const show = async (id: string | null): Promise<void> => {
    if (id !== null) {
      const [found, request] = await Promise.all([readSearch(id), readRequest(id)]);
      setSearch(found);
      setDay(request.day);
    }
    setRead(true);
  };
  const run = (work: Promise<void>): void => void work.then(() => setTrouble(null), setTrouble);
  const refresh = (): void => run(newestSearch().then(show));
  useEffect(refresh, []);
  const id = search?.id;
  useEffect(() => {
    if (id === undefined || !search || !isRunning(search)) return undefined;
    return watchSearch(id, (told) => setSearch((before) => (before?.id === id ? { ...before, ...told } : before)));
  }, [id]);
  const plan = (from: "day" | "now"): void =>
    run(
      startSearch(from).then(async (started) => {
        await show(started.id);
        location.hash = "#/";
      }),
    );
  if (trouble instanceof Refused && trouble.status === 401) return <TokenForm onEntered={refresh} />;
  const planned = search?.plan && day ? { plan: search.plan, day } : null;
  return (
    <>
      <a class="skip" href="#content" onClick={toContent}>
        {words.skip}
      </a>
      <nav aria-label={words.places}>
        <strong>{words.title}</strong>
        <a href="#/" aria-current={place === "/" ? "page" : undefined}>
          {words.today}
        </a>
        <a href="#/pans" aria-current={place === "/pans" ? "page" : undefined}>
          {words.waiting}
        </a>
      </nav>
      <main id="content" tabIndex={-1}>
        {trouble !== null && (
          <p class="alert" role="alert">
            {saidOf(trouble)}
          </p>
        )}
        {place === "/pans" ? (
          <WaitingPans onPlan={plan} onTrouble={setTrouble} />
        ) : planned === null || search === null ? (
          <NoPlan read={read} problem={search?.problem ?? null} onPlan={plan} />
        ) : place.startsWith("/load/") ? (
          <LoadSheet planned={planned} id={decodeURIComponent(place.slice(6))} />
        ) : (
          <Today
            search={search}
            planned={planned}
            now={now}
            onStop={() => run(stopSearch(search.id).then(setSearch))}
            onAccept={() => run(acceptSearch(search.id).then(() => show(search.id)))}
          />
        )}
      </main>
    </>
  );
}

/** The address keeps the place, so the jump moves the focus by hand. */
function toContent(event: MouseEvent): void {
  event.preventDefault();
  document.getElementById("content")?.focus();
}

function NoPlan({
  read,
  problem,
  onPlan,
}: {
  readonly read: boolean;
  readonly problem: string | null;
  readonly onPlan: (from: "day") => void;
}) {
  return (
    <>
      <h1>{words.today}</h1>
      <p>{read ? (problem ?? words.noPlan) : words.loading}</p>
      {read && <button onClick={() => onPlan("day")}>{words.planNow}</button>}
    </>
  );
}

function TokenForm({ onEntered }: { readonly onEntered: () => void }) {
  const [said, setSaid] = useState("");
  const send = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const token = fieldText(new FormData(event.currentTarget), "token");
    enter(token).then(onEntered, (trouble: unknown) => setSaid(saidOf(trouble)));
  };
  return (
    <main>
      <h1>{words.tokenTitle}</h1>
      <form onSubmit={send}>
        <label>
          {words.token}
          <input name="token" type="password" autocomplete="current-password" required />
        </label>
        <button>{words.enter}</button>
        <p role="alert">{said}</p>
      </form>
    </main>
  );
}

function usePlace(): string {
  const read = (): string => location.hash.slice(1) || "/";
  const [place, setPlace] = useState(read);
  useEffect(() => {
    const turn = (): void => setPlace(read());
    addEventListener("hashchange", turn);
    return () => removeEventListener("hashchange", turn);
  }, []);
  return place;
}

function useNow(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const beat = setInterval(() => setNow(Date.now()), 10_000);
    return () => clearInterval(beat);
  }, []);
  return now;
}

const root = document.getElementById("page");
if (root !== null) render(<Page />, root);
