/** Which fields and which kind of value a schema knows at a path, for hints. Called by schema-problems.ts. */
import { z } from "zod";
import type { Path } from "../contract/problem.ts";

/** The part of JSON Schema that zod writes. */
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

export interface Fields {
  /** Names known in the object at `path`; of a union, those of the member whose `kind` is `kindSeen`, else of all. */
  readonly known: (path: Path, kindSeen: unknown) => string[];
  /** What is expected at `path`, in words: "a number (gross, while the door is closed)". */
  readonly expected: (path: Path) => string;
}

const read = new WeakMap<z.ZodType, Fields>();

export function fieldsOf(schema: z.ZodType): Fields {
  const fields = read.get(schema) ?? fieldsIn(schema);
  read.set(schema, fields);
  return fields;
}

function fieldsIn(schema: z.ZodType): Fields {
  let root: Node | undefined;
  const nodesAt = (path: Path): Node[] => {
    root ??= z.toJSONSchema(schema, { io: "input" }) as Node;
    let nodes = members(root);
    for (const step of path) nodes = nodes.flatMap((node) => child(node, step)).flatMap(members);
    return nodes;
  };
  return {
    known: (path, kindSeen) => knownIn(nodesAt(path), kindSeen),
    expected: (path) => expectedIn(nodesAt(path)),
  };
}

function knownIn(nodes: readonly Node[], kindSeen: unknown): string[] {
  const objects = nodes.filter((node) => node.properties);
  const kindred = objects.filter((node) => node.properties?.["kind"]?.const === kindSeen);
  return [...new Set((kindred.length > 0 ? kindred : objects).flatMap((node) => Object.keys(node.properties ?? {})))];
}

function expectedIn(nodes: readonly Node[]): string {
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
