import { posix } from "node:path";
import ts from "typescript";
import type { ProjectFile } from "./projectFiles.ts";

/** One import of a file; `target` is a path from the project's root for the project's own files, else the module's name. */
export interface Import {
  readonly from: string;
  readonly target: string;
  readonly own: boolean;
  readonly line: number;
}

/** A file inside a package, named by its path, as `createRequire(…).resolve` takes it. */
const assetPath = /^(@[\w-]+\/)?[\w.-]+\/dist\/[\w./-]+$/;

/** Everything a file imports: static, dynamic, re-exported, in types, by require, and files taken out of a package. */
export function importsOf(file: ProjectFile): readonly Import[] {
  const known = seen.get(file);
  if (known !== undefined) return known;
  const source = ts.createSourceFile(file.path, file.text, ts.ScriptTarget.ESNext, true);
  const found: Import[] = [];
  const add = (node: ts.Node | undefined): void => {
    if (node === undefined || !ts.isStringLiteralLike(node)) return;
    const own = node.text.startsWith(".");
    const target = own ? posix.normalize(posix.join(posix.dirname(file.path), node.text)) : node.text;
    found.push({ from: file.path, target, own, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1 });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) add(node.moduleSpecifier);
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) add(node.argument.literal);
    else if (ts.isCallExpression(node) && (node.expression.kind === ts.SyntaxKind.ImportKeyword || node.expression.getText() === "require")) add(node.arguments[0]);
    else if (ts.isStringLiteral(node) && assetPath.test(node.text)) add(node);
    ts.forEachChild(node, visit);
  };
  visit(source);
  seen.set(file, found);
  return found;
}

const seen = new WeakMap<ProjectFile, readonly Import[]>();

/** Whether a file comes to another by its imports, at first hand or through others. */
export function reaches(files: readonly ProjectFile[]): (from: string, to: string) => boolean {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const reached = new Map<string, ReadonlySet<string>>();
  return (from, to) => {
    let all = reached.get(from);
    if (all === undefined) {
      const found = new Set<string>();
      const pending = [from];
      for (let path = pending.pop(); path !== undefined; path = pending.pop()) {
        const file = byPath.get(path);
        if (file === undefined) continue;
        for (const { target } of importsOf(file).filter(({ own }) => own)) if (!found.has(target)) pending.push(target), found.add(target);
      }
      reached.set(from, (all = found));
    }
    return all.has(to);
  };
}

/** The package a module name belongs to: `@a/b/c` → `@a/b`. */
export function packageOf(name: string): string {
  return name.split("/").slice(0, name.startsWith("@") ? 2 : 1).join("/");
}
