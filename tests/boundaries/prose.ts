// Where code decides by the program's own sentences. What is said for people is made from what is known, never read back.

import ts from "typescript";
import { parsed } from "./parsed.ts";

/** Fields that hold sentences for people wherever they stand. */
const sentences = new Set(["says", "because", "what", "remedy", "statement", "headline"]);
/** What is to be done next, in words; also names of numbers, which are compared but never searched. */
const steps = new Set(["step", "next"]);
/** Names for people: they may be cut and joined, but nothing is known by them. */
const names = new Set(["label", "title"]);
const readers = new Set([
  "startsWith",
  "endsWith",
  "includes",
  "indexOf",
  "match",
  "matchAll",
  "search",
  "split",
  "replace",
  "replaceAll",
]);
const equal = new Set([
  ts.SyntaxKind.EqualsEqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsEqualsToken,
  ts.SyntaxKind.EqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsToken,
]);

function fieldOf(node: ts.Node): string {
  if (ts.isNonNullExpression(node) || ts.isParenthesizedExpression(node)) return fieldOf(node.expression);
  if (ts.isPropertyAccessExpression(node)) {
    const owner = node.expression.getText();
    return node.name.text === "text" && /(remark|warning)\w*(\(\))?[!?]?$/i.test(owner) ? "says" : node.name.text;
  }
  return ts.isIdentifier(node) ? node.text : "";
}

const isSentence = (node: ts.Node): boolean => {
  const field = fieldOf(node);
  // A name of its own, "what" is as often a kind of thing.
  return sentences.has(field) && !(field === "what" && ts.isIdentifier(node));
};
const isStep = (node: ts.Node): boolean => steps.has(fieldOf(node));
const isNamed = (node: ts.Node): boolean => ts.isPropertyAccessExpression(node) && names.has(fieldOf(node));

/** Nothing is read of a sentence by asking whether there is one. */
const isNothing = (node: ts.Node): boolean =>
  node.kind === ts.SyntaxKind.NullKeyword ||
  (ts.isIdentifier(node) && node.text === "undefined") ||
  (ts.isStringLiteral(node) && node.text === "");

/** The places, "FILE:LINE code", in which a text of the program is compared, searched or taken apart. */
export function readsProse(file: string, text: string): readonly string[] {
  const source = parsed(file, text);
  const found: string[] = [];
  const note = (node: ts.Node) => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart());
    found.push(`${file}:${line + 1} ${node.getText().split("\n")[0]!.slice(0, 80)}`);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isBinaryExpression(node) && equal.has(node.operatorToken.kind)) {
      const sides = [node.left, node.right];
      if (sides.some((side) => isSentence(side) || isNamed(side)) && !sides.some(isNothing)) note(node);
      else if (sides.some(isStep) && sides.some(ts.isStringLiteral) && !sides.some(isNothing)) note(node);
    }
    if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression)) {
      const { name, expression } = node.expression;
      const [argument] = node.arguments;
      const isRead = (one: ts.Node) => isSentence(one) || isStep(one);
      if (readers.has(name.text) && isRead(expression)) note(node);
      if ((name.text === "test" || name.text === "exec") && argument && isRead(argument)) note(node);
    }
    if (ts.isSwitchStatement(node) && isSentence(node.expression)) note(node);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
