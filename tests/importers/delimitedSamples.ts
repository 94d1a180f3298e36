import type { Sample } from "./contract.ts";
import { utf16, utf8 } from "./sample.ts";

const rows = 60;

/** Invented logs in the dialects that loggers write. */
export const delimitedSamples: readonly Sample[] = [
  sample("elapsed, comma, point", utf8, "t [s],Fx [N],note,Fz [kN]\n", (i) => `${(i / 1000).toFixed(3)},${value(i)},ok,${value(i + 7)}\n`, { kind: "elapsed", column: "t", unit: "s" }),
  sample("wall, tab, decimal comma, UTF-16, preamble and unit line", (text) => utf16(text, "le"), "Run:\tR07\r\nStart:\t01.10.2026\r\n\r\nTime\tFx\tFz\r\n\tN\tkN\r\n", (i) => `01.10.2026 23:59:${String(30 + Math.floor(i / 10)).padStart(2, "0")},${i % 10}00\t${value(i).replace(".", ",")}\t${value(i + 7).replace(".", ",")}\r\n`, { kind: "wall", column: "Time", format: "dd.MM.yyyy HH:mm:ss,SSS", zone: "Europe/Oslo" }),
  sample("ISO, semicolon, quoted, Latin-1", (text) => new Uint8Array(Buffer.from(text, "latin1")), '"Zeit";"Fx";"Fz";"Höhe"\n', (i) => `"2026-10-01T08:00:${String(i).padStart(2, "0")}.5Z";"${value(i)}";"${value(i + 7)}";"°"\n`, { kind: "iso", column: "Zeit" }),
  sample("fixed rate, aligned blanks", utf8, "# invented\n     Fx [N]     Fz [N]\n", (i) => `${value(i).padStart(11)}${value(i + 7).padStart(11)}\n`, { kind: "rate", rateHz: 10_000 }),
];

function sample(name: string, encode: (text: string) => Uint8Array, head: string, row: (i: number) => string, clock: Sample["options"]["clock"]): Sample {
  const body = Array.from({ length: rows }, (_, i) => row(i));
  const broken = body.map((line, i) => (i === 20 ? line.replace(new RegExp(value(20).replace(".", "[.,]")), "broken") : line));
  return { name, bytes: encode(head + body.join("")), options: { clock, columns: ["Fx", "Fz"], missing: [], overload: [] }, rows, withText: encode(head + broken.join("")) };
}

function value(i: number): string {
  return (Math.sin(i) * 20 + 0.0625).toFixed(4);
}
