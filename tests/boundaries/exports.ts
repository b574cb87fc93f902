// What product code exports and what of it product code reaches, told from the names in import and export statements.

import { readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import ts from "typescript";

export interface Exported {
  readonly file: string;
  readonly name: string;
  /** Used in its own file beside its declaration. */
  readonly usedAtHome: boolean;
}

interface Facts {
  readonly exports: readonly Exported[];
  /** "FILE name" of whatever this file takes from others. */
  readonly takes: readonly string[];
}

function factsOf(file: string, text: string): Facts {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const counts = new Map<string, number>();
  const exports: string[] = [];
  const takes: string[] = [];
  const target = (specifier: ts.Node | undefined) =>
    specifier && ts.isStringLiteral(specifier) && specifier.text.startsWith(".")
      ? normalize(join(dirname(file), specifier.text))
      : null;
  const isExported = (node: ts.Node) =>
    ts.canHaveModifiers(node) && ts.getModifiers(node)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
  const named = (name: ts.BindingName): readonly string[] =>
    ts.isIdentifier(name)
      ? [name.text]
      : name.elements.flatMap((one) => (ts.isOmittedExpression(one) ? [] : named(one.name)));
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node)) counts.set(node.text, (counts.get(node.text) ?? 0) + 1);
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) {
      const from = target(node.moduleSpecifier);
      const clause = ts.isImportDeclaration(node) ? node.importClause?.namedBindings : node.exportClause;
      if (from && clause && (ts.isNamedImports(clause) || ts.isNamedExports(clause))) {
        for (const one of clause.elements) takes.push(`${from} ${(one.propertyName ?? one.name).text}`);
      } else if (from && clause) takes.push(`${from} *`);
      if (ts.isExportDeclaration(node) && clause && ts.isNamedExports(clause))
        exports.push(...clause.elements.map((one) => one.name.text));
      return;
    }
    // import("./x.ts"): what is taken of it is a property of the answer.
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      const from = target(node.arguments[0]);
      if (from) takes.push(`${from} *`);
    }
    if (ts.isVariableStatement(node) && isExported(node)) {
      exports.push(...node.declarationList.declarations.flatMap(({ name }) => named(name)));
    } else if (isExported(node) && "name" in node && node.name && ts.isIdentifier(node.name as ts.Node)) {
      exports.push((node.name as ts.Identifier).text);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return { exports: exports.map((name) => ({ file, name, usedAtHome: (counts.get(name) ?? 0) > 1 })), takes };
}

/** Exports that no other product file takes. */
export function notTaken(root: string, files: readonly string[]): readonly Exported[] {
  const all = files.map((file) => factsOf(file, readFileSync(join(root, file), "utf8")));
  const taken = new Set(all.flatMap(({ takes }) => takes));
  return all.flatMap(({ exports }) =>
    exports.filter(({ file, name }) => !taken.has(`${file} ${name}`) && !taken.has(`${file} *`)),
  );
}
