/** The frame of every screen: skip link, navigation, what is wrong, the screen, what this device keeps: who, units. */
import { useEffect, useState } from "preact/hooks";
import { deviceTime } from "../parts/clock.ts";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { useNow } from "../parts/use-now.ts";
import { UnitSwitch } from "../parts/unit-switch.tsx";
import { useUnits } from "../parts/units.ts";
import { useConnection } from "./connection.ts";
import { refresh, useLive } from "./live.ts";
import { Navigation } from "./navigation.tsx";
import { screenAt } from "./screens.tsx";
import { Refused, saidOf } from "./service.ts";
import { TokenForm } from "./token-form.tsx";
import { WhoAsk, WhoNow } from "./who-ask.tsx";
import { words } from "./words-en.ts";

export function Page() {
  const { screen, rest } = screenAt(useHash());
  const live = useLive();
  const now = useNow();
  useUnits();
  const [isAskedAgain, setAskedAgain] = useState(false);
  useConnection();
  useEffect(() => void refresh(), []);
  if (live.trouble instanceof Refused && live.trouble.status === 401) return <TokenForm onEntered={refresh} />;
  return (
    <>
      <a class="skip" href="#content" onClick={toContent}>
        {words.shell.skip}
      </a>
      <Navigation path={screen.path} />
      <WhoAsk isAgain={isAskedAgain} onAnswered={() => setAskedAgain(false)} />
      <main id="content" tabIndex={-1}>
        {live.keptAt !== null && <Notice kind="alert">{words.shell.kept(deviceTime(live.keptAt))}</Notice>}
        {live.trouble !== null && <Notice kind="alert">{inUnits(saidOf(live.trouble))}</Notice>}
        {screen.show({ live, now, rest })}
      </main>
      <footer class="units">
        <WhoNow onChange={() => setAskedAgain(true)} />
        <UnitSwitch />
      </footer>
    </>
  );
}

/** The address keeps the screen, so the jump moves the focus by hand. */
function toContent(event: MouseEvent): void {
  event.preventDefault();
  document.getElementById("content")?.focus();
}

function useHash(): string {
  const [hash, setHash] = useState(location.hash);
  useEffect(() => {
    const turn = (): void => setHash(location.hash);
    addEventListener("hashchange", turn);
    return () => removeEventListener("hashchange", turn);
  }, []);
  return hash;
}
