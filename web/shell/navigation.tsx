/** The way to every screen; on a phone in rows, so that none is out of sight. */
import { navigation } from "./screens.tsx";
import { words } from "./words-en.ts";

export function Navigation({ path }: { readonly path: string }) {
  return (
    <nav aria-label={words.shell.places}>
      <strong>{words.shell.title}</strong>
      <ul>
        {navigation.map((screen) => (
          <li>
            <a href={`#${screen.path}`} aria-current={screen.path === path ? "page" : undefined}>
              {screen.name}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
