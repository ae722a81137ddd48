import channels from "../schema/channels.schema.json" with { type: "json" };
import check from "../schema/check.schema.json" with { type: "json" };
import demands from "../schema/demands.schema.json" with { type: "json" };
import design from "../schema/design.schema.json" with { type: "json" };
import diff from "../schema/diff.schema.json" with { type: "json" };
import explain from "../schema/explain.schema.json" with { type: "json" };
import history from "../schema/history.schema.json" with { type: "json" };
import lesson from "../schema/lesson.schema.json" with { type: "json" };
import list from "../schema/list.schema.json" with { type: "json" };
import openChannels from "../schema/open-channels.schema.json" with { type: "json" };
import { print } from "../streams.js";

const SCHEMAS = {
  channels,
  check,
  demands,
  design,
  diff,
  explain,
  history,
  lesson,
  list,
  "open-channels": openChannels,
};

export async function schema(output: keyof typeof SCHEMAS): Promise<void> {
  await print([`${JSON.stringify(SCHEMAS[output], undefined, 2)}\n`]);
}
