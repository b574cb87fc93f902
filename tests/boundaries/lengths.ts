// How long functions are: lines from the head of one to its end, what stands within it included.

import ts from "typescript";
import { parsed } from "./parsed.ts";

/** A longer one says in its doc block "Long because …". */
export const longest = 60;

const named = (node: ts.Node): string => {
  const own = (node as ts.FunctionLikeDeclaration).name?.getText();
  const holder = node.parent as ts.VariableDeclaration | undefined;
  return own ?? holder?.name?.getText?.() ?? "a function without a name";
};

/** The doc block stands above the statement that holds the function. */
function reasonIn(node: ts.Node, text: string): boolean {
  let statement: ts.Node = node;
  while (statement.parent && !ts.isSourceFile(statement.parent) && !ts.isClassLike(statement.parent)) {
    statement = statement.parent;
  }
  return /Long because/.test(text.slice(statement.pos, statement.getStart()));
}

/** Functions above `most` lines that give no reason, "FILE:LINE NAME, LINES lines". */
export function tooLong(file: string, text: string, most = longest): readonly string[] {
  const source = parsed(file, text);
  const found: string[] = [];
  const lineOf = (position: number) => source.getLineAndCharacterOfPosition(position).line + 1;
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node) && "body" in node && node.body) {
      const lines = lineOf(node.end) - lineOf(node.getStart()) + 1;
      if (lines > most && !reasonIn(node, text)) {
        found.push(`${file}:${lineOf(node.getStart())} ${named(node)}, ${lines} lines`);
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
