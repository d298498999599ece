/** The screens: one line each. Their addresses, their names in the navigation, what shows them. */
import type { ComponentChildren } from "preact";
import { Day } from "../day/day.tsx";
import { WaitingPans } from "../pans/waiting-pans.tsx";
import { Happened } from "../happened/happened.tsx";
import { Rush } from "../rush/rush.tsx";
import { LoadSheet } from "../sheet/load-sheet.tsx";
import { Why } from "../why/why.tsx";
import { WhatIf } from "../what-if/what-if.tsx";
import { Close } from "../close/close.tsx";
import { Shop } from "../shop/shop.tsx";
import { About } from "../about/about.tsx";
import type { Live } from "./live.ts";
import { words } from "./words-en.ts";

export interface ScreenParts {
  readonly live: Live;
  /** Milliseconds; moves on by itself. */
  readonly now: number;
  /** What follows the screen's path in the address, decoded: the load's id on a load sheet. */
  readonly rest: string;
}

export interface Screen {
  readonly path: string;
  /** In the navigation; null: reached from another screen only. */
  readonly name: string | null;
  readonly show: (parts: ScreenParts) => ComponentChildren;
}

const screens: readonly Screen[] = [
  { path: "/", name: words.screens.day, show: (parts) => <Day {...parts} /> },
  { path: "/load", name: null, show: (parts) => <LoadSheet {...parts} /> },
  { path: "/pans", name: words.screens.pans, show: (parts) => <WaitingPans {...parts} /> },
  { path: "/happened", name: null, show: (parts) => <Happened {...parts} /> },
  { path: "/rush", name: words.rush.title, show: () => <Rush /> },
  { path: "/why", name: words.why.name, show: (parts) => <Why {...parts} /> },
  { path: "/what-if", name: words.whatIf.title, show: () => <WhatIf /> },
  { path: "/close", name: words.close.title, show: (parts) => <Close {...parts} /> },
  { path: "/shop", name: words.shop.title, show: (parts) => <Shop {...parts} /> },
  { path: "/about", name: words.about.title, show: () => <About /> },
];

export const navigation = screens.filter(({ name }) => name !== null);

/** `#/load/F-2` is the screen /load with the rest F-2. An address that no screen has shows the day. */
export function screenAt(hash: string): { readonly screen: Screen; readonly rest: string } {
  const [, first = "", ...others] = hash.replace(/^#/, "").split("/");
  const screen = screens.find(({ path }) => path === `/${first}`) ?? screens[0];
  if (screen === undefined) throw new Error("a page without screens");
  return { screen, rest: decoded(others.join("/")) };
}

/** An address typed by hand may hold a broken escape: then it is taken as it stands. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
