// What product code exports and what of it is reached, told from the names in import and export statements.

import { dirname, join, normalize } from "node:path";
import ts from "typescript";
import { parsed } from "./parsed.ts";

interface Exported {
  readonly file: string;
  readonly name: string;
  /** Used in its own file beside its declaration. */
  readonly usedAtHome: boolean;
  /** An interface or a type: whoever calls what it belongs to may name it one day. */
  readonly isType: boolean;
}

interface Facts {
  readonly exports: readonly Exported[];
  /** "FILE name" of whatever this file takes from others; "FILE *" of all of it. */
  readonly takes: readonly string[];
}

/** Where a relative import leads, as a path from the root; null for a package. */
const target = (file: string, specifier: ts.Node | undefined): string | null =>
  specifier && ts.isStringLiteral(specifier) && specifier.text.startsWith(".")
    ? normalize(join(dirname(file), specifier.text))
    : null;

function takenBy(file: string, node: ts.Node): readonly string[] {
  // import("./x.ts"): what is taken of it is a property of the answer.
  if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
    const from = target(file, node.arguments[0]);
    return from ? [`${from} *`] : [];
  }
  if (!ts.isImportDeclaration(node) && !ts.isExportDeclaration(node)) return [];
  const from = target(file, node.moduleSpecifier);
  const clause = ts.isImportDeclaration(node) ? node.importClause?.namedBindings : node.exportClause;
  if (!from || !clause) return [];
  if (!ts.isNamedImports(clause) && !ts.isNamedExports(clause)) return [`${from} *`];
  return clause.elements.map((one) => `${from} ${(one.propertyName ?? one.name).text}`);
}

const namesOf = (name: ts.BindingName): readonly string[] =>
  ts.isIdentifier(name)
    ? [name.text]
    : name.elements.flatMap((one) => (ts.isOmittedExpression(one) ? [] : namesOf(one.name)));

function exportedBy(node: ts.Node): readonly string[] {
  if (ts.isExportDeclaration(node)) {
    const clause = node.exportClause;
    return clause && ts.isNamedExports(clause) ? clause.elements.map((one) => one.name.text) : [];
  }
  const isExported =
    ts.canHaveModifiers(node) && ts.getModifiers(node)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
  if (!isExported) return [];
  if (ts.isVariableStatement(node)) return node.declarationList.declarations.flatMap(({ name }) => namesOf(name));
  const name = (node as ts.DeclarationStatement).name;
  return name && ts.isIdentifier(name) ? [name.text] : [];
}

function factsOf(file: string, text: string): Facts {
  const source = parsed(file, text);
  const counts = new Map<string, number>();
  const exports: { name: string; isType: boolean }[] = [];
  const takes: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node)) counts.set(node.text, (counts.get(node.text) ?? 0) + 1);
    takes.push(...takenBy(file, node));
    const isType = ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node);
    exports.push(...exportedBy(node).map((name) => ({ name, isType })));
    if (!ts.isImportDeclaration(node) && !ts.isExportDeclaration(node)) ts.forEachChild(node, visit);
  };
  visit(source);
  const isUsed = (name: string) => (counts.get(name) ?? 0) > 1;
  return { exports: exports.map((one) => ({ ...one, file, usedAtHome: isUsed(one.name) })), takes };
}

type Sources = ReadonlyMap<string, string>;

/**
 * Exports that no product code reaches, and those that need not be exported: values that only their own file uses.
 *
 * @param product  texts by path.
 * @param others  tests and scripts: what they take of a value that its own file uses may be exported for them.
 */
export function unreached(product: Sources, others: Sources): readonly string[] {
  const facts = [...product].map(([file, text]) => factsOf(file, text));
  const taken = new Set(facts.flatMap(({ takes }) => takes));
  const tried = new Set([...others].flatMap(([file, text]) => factsOf(file, text).takes));
  const isIn = (set: ReadonlySet<string>, { file, name }: Exported) =>
    set.has(`${file} ${name}`) || set.has(`${file} *`);
  return facts.flatMap(({ exports }) =>
    exports
      .filter((one) => !isIn(taken, one) && !(one.usedAtHome && (one.isType || isIn(tried, one))))
      .map(({ file, name, usedAtHome }) => `${file} ${name}: ${usedAtHome ? "used at home only" : "used nowhere"}`),
  );
}
