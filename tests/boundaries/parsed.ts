// A file as the compiler reads it, read once for all checks.

import ts from "typescript";

const known = new Map<string, ts.SourceFile>();

export function parsed(file: string, text: string): ts.SourceFile {
  const before = known.get(file);
  if (before?.text === text) return before;
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  known.set(file, source);
  return source;
}
