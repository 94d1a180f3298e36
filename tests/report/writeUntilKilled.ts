// A child process of writeReport.test.ts: writes one report after the other, each marked with its number, until it is killed.
// The drawing libraries are loaded only where a report is drawn, so that the other mode spends its time writing.
import { writeTogether } from "../../src/report/writeTogether.ts";

const [, , out, mode] = process.argv as [string, string, string, string];
for (let number = 1; ; number++) {
  const mark = String(number);
  if (mode === "report") {
    const { writeReport } = await import("../../src/report/writeReport.ts");
    const { sampleDay } = await import("./sampleDay.ts");
    writeReport({ ...sampleDay(), drawbarVersion: mark }, out, { madeAt: mark });
  } else {
    const json = `{"format": "drawbar results", "drawbarVersion": "${mark}", "filler": "${"x".repeat(20000)}"}`;
    writeTogether(out, [{ name: "report.html", text: `<p>drawbar ${mark}"</p>` }, { name: "results.json", text: json }, { name: "runs.csv", text: "a\r\n" }, { name: "soil.json", text: json }]);
  }
  process.stdout.write(`${mark}\n`);
}
