/** Which fields and which kind of value the day file's schema knows at a path, for hints. Called by schema-problems.ts. */
import { z } from "zod";
import { daySchema } from "../contract/day.ts";
import type { Path } from "../contract/problem.ts";

/** The part of JSON Schema that zod writes for the day file. */
interface Node {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly additionalProperties?: Node | boolean;
  readonly items?: Node;
  readonly prefixItems?: readonly Node[];
  readonly anyOf?: readonly Node[];
  readonly oneOf?: readonly Node[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
}

let root: Node | undefined;

/** Field names known in the object at `path`; of a union, those of the member whose `kind` is `kindSeen`, else of all. */
export function knownFields(path: Path, kindSeen: unknown): string[] {
  const members = nodesAt(path).filter((node) => node.properties);
  const kindred = members.filter((node) => node.properties?.["kind"]?.const === kindSeen);
  return [...new Set((kindred.length > 0 ? kindred : members).flatMap((node) => Object.keys(node.properties ?? {})))];
}

/** What the schema expects at `path`, in words: "a number (gross, while the door is closed)". */
export function expectedAt(path: Path): string {
  const nodes = nodesAt(path);
  const kinds = [...new Set(nodes.map((node) => kindWords(node)))];
  const about = nodes.map((node) => node.description).find((description) => description !== undefined);
  const said = kinds.length > 0 ? kinds.join(" or ") : "another value";
  return about === undefined ? said : `${said} (${about})`;
}

function kindWords(node: Node): string {
  if (node.enum) return `one of ${node.enum.join(", ")}`;
  if (node.const !== undefined) return JSON.stringify(node.const);
  const words: Record<string, string> = {
    number: "a number",
    integer: "a whole number",
    string: "text in quotes",
    boolean: "true or false",
    array: "a list",
    object: "an object",
    null: "null",
  };
  return words[node.type ?? ""] ?? "another value";
}

function nodesAt(path: Path): Node[] {
  root ??= z.toJSONSchema(daySchema, { io: "input" }) as Node;
  let nodes = members(root);
  for (const step of path) nodes = nodes.flatMap((node) => child(node, step)).flatMap(members);
  return nodes;
}

function child(node: Node, step: string | number): Node[] {
  if (typeof step === "number") return [node.prefixItems?.[step] ?? node.items].filter((item) => item !== undefined);
  const named = node.properties && Object.hasOwn(node.properties, step) ? node.properties[step] : undefined;
  if (named) return [named];
  return typeof node.additionalProperties === "object" ? [node.additionalProperties] : [];
}

/** A union's description goes to its members, which carry none of their own. */
function members(node: Node): Node[] {
  const parts = node.anyOf ?? node.oneOf;
  if (!parts) return [node];
  return parts
    .map((part) => (node.description === undefined ? part : { ...part, description: node.description }))
    .flatMap(members);
}
