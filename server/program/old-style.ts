/**
 * Functions defined as before 1989: `int scale(x, n) int x, n; { … }`, with or without a type. The parser, which reads C++, takes
 * the head for a declaration or a call without its semicolon, the parameters for variables and the body for a block.
 */
import { child, type SyntaxNode, type SyntaxTree } from "../parse/syntax.js";

export interface InNewStyle {
  readonly nodes: readonly SyntaxNode[];
  /** Where the parser missed a semicolon that nobody needs. */
  readonly settled: ReadonlySet<number>;
}

/** What stands at file level, with every such definition as one node. */
export function inNewStyle(tree: SyntaxTree): InNewStyle {
  const given = tree.root.children;
  if (!tree.errors.some((error) => error.missing === ";")) return { nodes: given, settled: new Set() };
  const nodes: SyntaxNode[] = [];
  const settled = new Set<number>();
  for (const node of given) {
    const made = node.kind === "compound_statement" ? definition(nodes, node, tree.text) : null;
    if (made === null) {
      nodes.push(node);
      continue;
    }
    nodes.length -= made.nodes;
    nodes.push(made.definition);
    settled.add(made.head);
  }
  return { nodes, settled };
}

interface Head {
  readonly type: readonly SyntaxNode[];
  readonly name: SyntaxNode;
  readonly list: SyntaxNode;
  readonly pointers: readonly SyntaxNode[];
}

/** The function whose head and parameters are the last of the nodes before `body`; null where they are none such. */
function definition(
  before: readonly SyntaxNode[],
  body: SyntaxNode,
  text: string,
): { readonly definition: SyntaxNode; readonly nodes: number; readonly head: number } | null {
  const parameters = new Map<string, SyntaxNode>();
  for (let at = before.length - 1; at >= 0; at--) {
    const node = before[at]!;
    const head = headOf(node);
    if (head !== null) {
      const names = head.list.children.filter((part) => part.named);
      const listed = names.map((name) => parameters.get(text.slice(name.start, name.end)) ?? plainInt(name));
      if ([...parameters.keys()].some((name) => !names.some((each) => text.slice(each.start, each.end) === name)))
        return null;
      return { definition: functionOf(head, listed, body), nodes: before.length - at, head: node.end };
    }
    if (node.kind !== "declaration") return null;
    for (const declarator of node.children.filter((part) => part.field === "declarator")) {
      const name = nameOf(declarator);
      if (name === null) return null;
      parameters.set(text.slice(name.start, name.end), {
        ...node,
        kind: "parameter_declaration",
        children: node.children.filter((part) => part.field !== "declarator" || part === declarator),
      });
    }
  }
  return null;
}

function headOf(node: SyntaxNode): Head | null {
  if (node.kind === "expression_statement") {
    const call = node.children.find((part) => part.named);
    const name = call?.kind === "call_expression" ? child(call, "function") : undefined;
    const list = call === undefined ? undefined : child(call, "arguments");
    return name?.kind === "identifier" && namesOnly(list) ? { type: [], name, list, pointers: [] } : null;
  }
  if (node.kind !== "declaration") return null;
  const type = node.children.filter((part) => part.field !== "declarator");
  const pointers: SyntaxNode[] = [];
  let declarator = child(node, "declarator");
  while (declarator?.kind === "pointer_declarator") {
    pointers.push(declarator);
    declarator = child(declarator, "declarator");
  }
  const name = declarator === undefined ? undefined : child(declarator, "declarator");
  if (declarator === undefined || name?.kind !== "identifier") return null;
  const list = declarator.kind === "init_declarator" ? child(declarator, "value") : typesAsNames(declarator);
  return namesOnly(list) ? { type, name, list, pointers } : null;
}

/** Behind a pointer the parser takes the names for types of parameters without names. */
function typesAsNames(declarator: SyntaxNode): SyntaxNode | undefined {
  const list = declarator.kind === "function_declarator" ? child(declarator, "parameters") : undefined;
  const children = list?.children.map((part) => {
    const type = part.children.length === 1 ? child(part, "type") : undefined;
    return type?.kind === "type_identifier" ? { ...type, kind: "identifier", field: null } : part;
  });
  return list === undefined || children === undefined ? undefined : { ...list, kind: "argument_list", children };
}

function namesOnly(list: SyntaxNode | undefined): list is SyntaxNode {
  return list?.kind === "argument_list" && list.children.every((part) => !part.named || part.kind === "identifier");
}

function nameOf(declarator: SyntaxNode): SyntaxNode | null {
  if (declarator.kind === "identifier") return declarator;
  const inner = child(declarator, "declarator");
  return inner === undefined ? null : nameOf(inner);
}

function plainInt(name: SyntaxNode): SyntaxNode {
  return { ...name, kind: "parameter_declaration", field: null, children: [{ ...name, field: "declarator" }] };
}

function functionOf(head: Head, parameters: readonly SyntaxNode[], body: SyntaxNode): SyntaxNode {
  const { list, name } = head;
  const listed: SyntaxNode = { ...list, kind: "parameter_list", field: "parameters", children: parameters };
  let declarator: SyntaxNode = {
    kind: "function_declarator",
    start: name.start,
    end: list.end,
    field: "declarator",
    named: true,
    children: [{ ...name, field: "declarator" }, listed],
  };
  for (const pointer of [...head.pointers].reverse()) {
    const inner = declarator;
    declarator = { ...pointer, children: pointer.children.map((part) => (part.field === "declarator" ? inner : part)) };
  }
  const start = head.type[0]?.start ?? name.start;
  const whole = { ...body, field: "body" };
  return {
    kind: "function_definition",
    start,
    end: body.end,
    field: null,
    named: true,
    children: [...head.type, declarator, whole],
  };
}
