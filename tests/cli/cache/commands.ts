import { vi } from "vitest";

export interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command of the program in this process; what it prints comes back instead of being shown. */
export async function saidBy(command: () => Promise<number>): Promise<Said> {
  const said = { out: "", err: "" };
  const spies = (["out", "err"] as const).map((way) =>
    vi.spyOn(process[`std${way}`], "write").mockImplementation((text) => {
      said[way] += String(text);
      return true;
    }),
  );
  try {
    const code = await command();
    return { code, ...said };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}
