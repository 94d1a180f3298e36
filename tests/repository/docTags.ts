import ts from "typescript";
import type { ProjectFile, Violation } from "./projectFiles.ts";

/** Rooms whose exports carry a full doc comment. */
export const documentedRooms = ["src/numerics", "src/processing/measures", "src/models", "src/fitting"];

interface Exported {
  readonly name: string;
  readonly line: number;
  readonly comment: ts.JSDoc | undefined;
  /** parameter names where it is a function; null where it is a constant; undefined where it is a type only */
  readonly parameters: readonly string[] | null | undefined;
  readonly returnsNothing: boolean;
}

/** What a file exports by declaration. */
function exportsOf(file: ProjectFile): Exported[] {
  const source = ts.createSourceFile(file.path, file.text, ts.ScriptTarget.ESNext, true);
  const all = source.statements.flatMap((statement): Exported[] => {
    if (!ts.canHaveModifiers(statement) || ts.getModifiers(statement)?.some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword) !== true) return [];
    const comment = ts.getJSDocCommentsAndTags(statement).filter(ts.isJSDoc).at(-1);
    const line = source.getLineAndCharacterOfPosition(statement.getStart()).line + 1;
    const functionLike = (node: ts.Node | undefined): node is ts.SignatureDeclaration => node !== undefined && (ts.isFunctionDeclaration(node) || ts.isArrowFunction(node) || ts.isFunctionExpression(node));
    const of = (name: ts.Node | undefined, value: ts.Node | undefined): Exported => ({
      name: name?.getText() ?? "default",
      line,
      comment,
      parameters: functionLike(value) ? value.parameters.map((parameter) => parameter.name.getText()) : null,
      returnsNothing: functionLike(value) && value.type?.kind === ts.SyntaxKind.VoidKeyword,
    });
    if (ts.isFunctionDeclaration(statement)) return [of(statement.name, statement)];
    if (ts.isVariableStatement(statement)) return statement.declarationList.declarations.map((declaration) => of(declaration.name, declaration.initializer));
    if (ts.isInterfaceDeclaration(statement) || ts.isTypeAliasDeclaration(statement)) return [{ ...of(statement.name, undefined), parameters: undefined }];
    return [of("name" in statement ? (statement.name as ts.Node) : undefined, undefined)];
  });
  // Of a function with several signatures, the one with the comment speaks for all.
  return all.filter((item) => item.comment !== undefined || !all.some((other) => other !== item && other.name === item.name));
}

/** What a test file named by @checked is to an export: not there, without any way to it, or its test. */
export type TestFit = "absent" | "unrelated" | "fits";
export type FitOf = (test: string, file: string) => TestFit;

/** Every export of these rooms says what it is; every function and constant also where its formula comes from and which test holds it. */
export function docTagViolations(files: readonly ProjectFile[], fitOf: FitOf): Violation[] {
  return files.flatMap((file) =>
    exportsOf(file).flatMap((item): Violation[] => missing(item, (test) => fitOf(test, file.path)).map((message) => ({ path: file.path, line: item.line, message: `${item.name}: ${message}` }))),
  );
}

function missing({ comment, parameters, returnsNothing }: Exported, fitOf: (test: string) => TestFit): string[] {
  if (comment === undefined) return ["no doc comment"];
  if (parameters === undefined) return [];
  const texts = (name: string): string[] => (comment.tags ?? []).filter((tag) => tag.tagName.text === name).map((tag) => tag.getText().replace(/^@\w+\s*/, "").trim());
  const found: string[] = [];
  if (!texts("source").some((text) => text.length >= 8)) found.push("no @source");
  const checked = texts("checked").flatMap((text) => text.split(/[\s,;]+/)).filter((word) => word.startsWith("tests/"));
  if (checked.length === 0) found.push("no @checked");
  for (const test of checked) {
    const fit = fitOf(test);
    if (fit === "absent") found.push(`@checked names ${test}, which does not exist`);
    if (fit === "unrelated") found.push(`@checked names ${test}, which never comes to this file`);
  }
  if (parameters === null) return found;
  if (!returnsNothing && texts("returns").length === 0) found.push("no @returns");
  if (texts("param").length === 0 && parameters.length > 0) found.push("no @param");
  return found;
}
