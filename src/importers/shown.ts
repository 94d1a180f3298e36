/** A cell as a message shows it: short, and without what would break the line. */
export function shown(cell: string, most = 40): string {
  const text = cell.trim().replace(/[\u0000-\u001f\u007f]/g, "?");
  if (text === "") return "an empty cell";
  return `"${text.length > most ? `${text.slice(0, most)}…` : text}"`;
}

/** Names in a message, quoted; a file can hold any number of them. */
export function shownNames(names: readonly string[], most = 30): string {
  const some = names.slice(0, most).map((name) => shown(name));
  return `${some.join(", ")}${names.length > most ? ` … (${names.length} in all)` : ""}` || "none";
}
