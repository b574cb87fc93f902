// Choices that choose nothing: both ways of a condition, or two neighbouring cases, hold the same code.

import ts from "typescript";
import { parsed } from "./parsed.ts";

/** "FILE:LINE code" of each. */
export function identicalBranches(file: string, text: string): readonly string[] {
  const source = parsed(file, text);
  const found: string[] = [];
  const plain = (node: ts.Node) => node.getText().replace(/\s+/g, " ");
  const note = (node: ts.Node) => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart());
    found.push(`${file}:${line + 1} ${plain(node).slice(0, 80)}`);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isConditionalExpression(node) && plain(node.whenTrue) === plain(node.whenFalse)) note(node);
    if (ts.isIfStatement(node) && node.elseStatement) {
      const other = ts.isIfStatement(node.elseStatement) ? node.elseStatement.thenStatement : node.elseStatement;
      if (plain(node.thenStatement) === plain(other)) note(node);
    }
    if (ts.isCaseBlock(node)) {
      node.clauses.forEach((clause, i) => {
        const before = node.clauses[i - 1];
        const body = clause.statements.map(plain).join(" ");
        if (before && body !== "" && body === before.statements.map(plain).join(" ")) note(clause);
      });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
