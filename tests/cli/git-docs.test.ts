import { execFileSync, spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { addFormats } from "../../server/cli/format-options.js";
import { program } from "../../server/cli/program.js";
import { files } from "../compare/network.js";
import { TestRepository } from "../compare/repository.js";
import { PROGRAM, scratch } from "./built.js";

/** What the pages tell the reader to do is done here, word by word. */
function page(name: string): string {
  return readFileSync(fileURLToPath(new URL(`../../language/reference/${name}`, import.meta.url)), "utf8");
}

function blocks(name: string, language: string): string[] {
  return [...page(name).matchAll(new RegExp(`^\`\`\`${language}\\n(.*?)^\`\`\``, "gms"))].map(
    ([, text]) => text!,
  );
}

const made: TestRepository[] = [];

function repositoryWith(): TestRepository {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write({ ...files(), ".gitattributes": blocks("git.md", "gitattributes")[0]! });
  repository.commit("base");
  return repository;
}

afterAll(() => {
  for (const repository of made) repository.remove();
});

test("with the attributes and the configuration of git.md hunks are headed by the declaration", () => {
  const repository = repositoryWith();
  execFileSync("sh", ["-c", blocks("git.md", "sh")[0]!], { cwd: repository.root });
  repository.edit("hops/north.hop", "    transmits low", "    transmits high");
  repository.edit(
    "sites.hop",
    "at 47.55 -30.4\n  structure mast 60 m",
    "at 47.55 -30.4\n  structure mast 70 m",
  );
  repository.edit("catalogue.hop", "gain 44 dBi", "gain 45 dBi");
  const heads = [...repository.git("diff", "-U0").matchAll(/^@@ .* @@ (.*)$/gm)].map(([, head]) => head);
  expect(heads).toEqual(["antenna DISH120-18 {", "hop KELD-TARN {", "hop KELD-MOSS {", "site TARN {"]);
  expect(repository.git("diff", "--word-diff", "catalogue.hop")).toContain("gain [-44-]{+45+} dBi");
});

test("the hook of ci.md lets a sound commit through and refuses layout and new errors", () => {
  const repository = repositoryWith();
  const bin = scratch("bin");
  mkdirSync(bin, { recursive: true });
  writeFileSync(join(bin, "hopwright"), `#!/bin/sh\nexec "${process.execPath}" "${PROGRAM}" "$@"\n`);
  chmodSync(join(bin, "hopwright"), 0o755);
  const hook = blocks("ci.md", "sh").find((text) => text.startsWith("#!/bin/sh"))!;
  const at = join(repository.root, ".git/hooks/pre-commit");
  writeFileSync(at, hook);
  chmodSync(at, 0o755);
  const identity = ["-c", "user.name=Author", "-c", "user.email=author@example.org"];
  const commit = () =>
    spawnSync("git", [...identity, "commit", "-qam", "change"], {
      cwd: repository.root,
      encoding: "utf8",
      env: { ...process.env, PATH: `${bin}:${process.env.PATH}` },
    });
  repository.edit("hops/south.hop", "at 40 m", "at 41 m");
  expect(commit().stderr).toBe("");
  repository.edit("hops/south.hop", "at 41 m", "at   42 m");
  expect(commit()).toMatchObject({ status: 1, stderr: expect.stringContaining("run hopwright format") });
  repository.edit("hops/south.hop", "at   42 m", "at 42 m");
  repository.edit("hops/south.hop", "transmits low", "transmits high");
  expect(commit()).toMatchObject({ status: 1, stderr: expect.stringContaining("brings findings") });
  repository.edit(
    "hops/south.hop",
    "TARN {\n    antenna DISH60-18 at 42 m\n    transmits high",
    "TARN {\n    antenna DISH60-18 at 42 m\n    transmits low",
  );
  expect(commit().status).toBe(0);
});

test("every command and option that the pages name exists", () => {
  const commands = new Map(program().commands.map((one) => [one.name(), one]));
  for (const one of commands.values()) addFormats(one);
  for (const name of ["git.md", "ci.md"]) {
    const lines = [...page(name).matchAll(/hopwright ([a-z]+)(?= )([^\n`|]*)/g)];
    expect(lines.length).toBeGreaterThan(0);
    for (const [, word = "", rest = ""] of lines) {
      const command = commands.get(word);
      expect(command, `${name}: ${word}`).toBeDefined();
      const options = command!.options.map(({ long }) => long);
      for (const [option] of rest.matchAll(/--[a-z-]+/g))
        if (option !== "--no-verify") expect(options, `${name}: ${word} ${option}`).toContain(option);
    }
  }
});
