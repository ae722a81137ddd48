/** Lists through the built program: status, streams, files, and the thread that reads what strangers packed. */
import { cpSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, test } from "vitest";
import { run, SAMPLES, scratch } from "./built.js";

const LONG = 120_000;
/** A copy of the samples: the program never writes into them. */
function copied(name: string): string {
  const folder = scratch(name);
  cpSync(SAMPLES, folder, { recursive: true });
  return join(folder, "eskerfold");
}

describe("list and import", () => {
  test.each(["xlsx", "geojson", "kml"])(
    "%s goes out and in again without a change",
    { timeout: LONG },
    (format) => {
      const design = copied(`round-${format}`);
      const file = scratch(`all.${format}`);
      const listed = run(["list", "all", design, "--format", format, "--out", file]);
      expect(listed.stderr).toMatch(/^13 sites, 14 hops.* written to /);
      expect(listed.status).toBe(0);
      const { status, stdout, stderr } = run(["import", file, "--out", design, "--write"]);
      expect(stdout).toContain("13 sites and 14 hops of the design are in the lists");
      expect(stderr).toBe("the design says all of this already: nothing was to be written\n");
      expect(status).toBe(0);
      expect(run(["list", "all", design, "--format", format, "--out", file]).stderr).toContain(
        "is not replaced",
      );
    },
  );

  test("JSON follows its schema; CSV has one list", { timeout: LONG }, () => {
    const { stdout } = run(["list", "all", "eskerfold", "--format", "json"]);
    const schema = JSON.parse(run(["schema", "list"]).stdout);
    const validate = new Ajv().compile(schema);
    expect(validate(JSON.parse(stdout)), JSON.stringify(validate.errors)).toBe(true);
    expect(stdout).not.toMatch(/NaN|Infinity|\[object/);
    expect(run(["list", "all", "eskerfold"]).stderr).toContain("CSV holds one list");
    expect(run(["list", "bugs", "eskerfold"]).stderr).toContain(
      "there is no list of bugs; choose from sites, hops",
    );
    expect(run(["list", "parts", "eskerfold", "--format", "kml"]).stderr).toContain("have no place on a map");
    expect(run(["list", "sites", "."]).stderr).toContain("name the folder of one");
  });

  test("an edited cell is shown as a diff, and written only when asked", { timeout: LONG }, () => {
    const design = copied("edited");
    const file = scratch("ends.csv");
    run(["list", "ends", design, "--out", file]);
    writeFileSync(
      file,
      readFileSync(file, "utf8").replace("OSTREL,LARKHOWE,DISH180-8,24,", "OSTREL,LARKHOWE,DISH180-8,26.5,"),
    );
    const ring = join(design, "hops/ring.hop");
    const before = readFileSync(ring, "utf8");
    const shown = run(["import", file, "--out", design]);
    expect(shown.stdout).toContain("-    antenna DISH180-8 at 24 m\n+    antenna DISH180-8 at 26.5 m\n");
    expect(shown.stderr).toBe("nothing is written yet: say --write\n");
    expect(readFileSync(ring, "utf8")).toBe(before);
    expect(run(["import", file, "--out", design, "--write"]).status).toBe(0);
    expect(readFileSync(ring, "utf8")).toBe(before.replace("DISH180-8 at 24 m", "DISH180-8 at 26.5 m"));
  });

  test("status 1 where a row is not taken, 2 where a column is unclear or a file cannot be read", {
    timeout: LONG,
  }, () => {
    const file = scratch("sites.csv");
    const out = scratch("begun");
    writeFileSync(file, "site,lat,lon\nA,47.5,-30.5\nB,95,-30.5\n");
    const told = scratch("told.csv");
    const { status, stdout } = run(["import", file, "--out", out, "--write", "--told", told]);
    expect(status).toBe(1);
    expect(stdout).toContain(`sites.csv:3: latitude 95° is beyond 90°`);
    expect(readFileSync(told, "utf8")).toContain(",3,row,latitude 95° is beyond 90°\r\n");
    expect(readFileSync(join(out, "sites.hop"), "utf8")).toBe("site A {\n  at 47.5 -30.5\n}\n");
    expect(existsSync(join(out, "network.hop"))).toBe(true);
    writeFileSync(file, "site,lat,latitude\nA,47.5,-30.5\n");
    const unclear = run(["import", file, "--out", scratch("never")]);
    expect(unclear.status).toBe(2);
    expect(unclear.stdout).toContain('unclear: both "lat" and "latitude" may hold the latitude');
    expect(unclear.stderr).toContain("say what is unclear in a file for --map");
    writeFileSync(scratch("a.xlsx"), Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0, 0, 0));
    const broken = run(["import", scratch("a.xlsx"), "--out", scratch("never")]);
    expect(broken.status).toBe(2);
    expect(broken.stdout).toContain("not read: ");
    expect(existsSync(scratch("never"))).toBe(false);
    expect(run(["import", scratch("none.csv"), "--out", out]).stderr).toContain("there is no such file");
  });
});
