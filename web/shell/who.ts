/** Who works at this device: a first name or initials, kept on the device, sent with what it reports. */
import { useEffect, useState } from "preact/hooks";

const key = "ovenful who";
/** As long as the service takes it. */
export const mostLetters = 60;

const listeners = new Set<() => void>();

/** Empty: nobody in particular; null: never asked. */
export function who(): string | null {
  return localStorage.getItem(key);
}

export function setWho(name: string): void {
  localStorage.setItem(key, name.trim().slice(0, mostLetters));
  for (const listener of listeners) listener();
}

/** Draws the component anew when somebody else takes over. */
export function useWho(): string | null {
  const [, turn] = useState(0);
  useEffect(() => {
    const listener = (): void => turn((n) => n + 1);
    listeners.add(listener);
    return () => void listeners.delete(listener);
  }, []);
  return who();
}

/** The body of a request with who sends it. */
export function signed<T extends object>(body: T): T & { readonly who?: string } {
  const name = who();
  return name === null || name === "" ? body : { ...body, who: name };
}

/** The same for a request whose body is something else, as a table. */
export function signedPath(path: string): string {
  const name = who();
  return name === null || name === "" ? path : `${path}?who=${encodeURIComponent(name)}`;
}
