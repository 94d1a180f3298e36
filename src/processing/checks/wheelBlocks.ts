import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";

/**
 * Wheels that are compared must meet in the same blocks: what changes from block to block (bed, weather, sensor, day) is otherwise
 * read as a difference between wheels. Two wheels confound when they share no block, or when one always runs before the other
 * and both run more than twice.
 */
export function wheelBlocks(campaign: Campaign): Finding[] {
  const traction = campaign.runs.map((run, order) => ({ run, order })).filter(({ run }) => run.kind === "traction" && run.wheel !== null && run.excluded === null);
  const wheels = [...groupBy(traction, ({ run }) => run.wheel as string)];
  return wheels.flatMap(([a, runsOfA], i) => wheels.slice(i + 1).flatMap(([b, runsOfB]): Finding[] => {
    const blocks = [runsOfA, runsOfB].map((own) => new Set(own.map(({ run }) => run.block ?? "")));
    const [ofA, ofB] = blocks as [Set<string>, Set<string>];
    const shared = [...ofA].filter((block) => ofB.has(block));
    if (shared.length === 0) return [confounded(a, b, `${a} ran in block ${[...ofA].join(", ")} and ${b} in block ${[...ofB].join(", ")} only`)];
    const orders = [runsOfA, runsOfB].map((own) => own.map(({ order }) => order)) as [number[], number[]];
    const apart = Math.max(...orders[0]) < Math.min(...orders[1]) || Math.max(...orders[1]) < Math.min(...orders[0]);
    return apart && Math.min(runsOfA.length, runsOfB.length) > 2 ? [confounded(a, b, `all runs of one came before all runs of the other`)] : [];
  }));
}

function confounded(a: string, b: string, why: string): Finding {
  return finding("wheels-confounded", "look", `Wheels ${a} and ${b} cannot be told from the course of the day: ${why}. Run every wheel in every block, in an order drawn by lot, with a control wheel in each`);
}
