/** Which program is started as git: one of the user's search path, never one that lies where the design does. */
import { describe, expect, it } from "vitest";
import { findProgram, type LookUp, ownFolders } from "../../server/git/program.js";
import { shareLedTo } from "../../server/git/work-tree.js";

function lookUp(
  windows: boolean,
  searchPath: string,
  programs: readonly string[],
  more: Partial<LookUp> = {},
): LookUp {
  return {
    searchPath,
    windows,
    strangers: [windows ? "C:\\designs\\north" : "/designs/north"],
    workingFolder: windows ? "C:\\design" : "/design",
    isProgram: (path) => programs.includes(path),
    real: (path) => (path.startsWith("/link") ? path.replace("/link", "/designs/north") : path),
    ...more,
  };
}

const CASES: readonly {
  readonly name: string;
  readonly windows?: true;
  readonly path: string;
  readonly programs: readonly string[];
  readonly found: string | undefined;
}[] = [
  {
    name: "the first of the path",
    path: "/a:/usr/bin:/b",
    programs: ["/usr/bin/git", "/b/git"],
    found: "/usr/bin/git",
  },
  {
    name: "an empty part means the working folder",
    path: ":/usr/bin",
    programs: ["git", "/design/git"],
    found: undefined,
  },
  {
    name: "a part seen from the working folder",
    path: "bin:./x:/usr/bin",
    programs: ["bin/git", "/design/bin/git", "/usr/bin/git"],
    found: "/usr/bin/git",
  },
  {
    name: "the working folder by its name",
    path: "/design:/usr/bin",
    programs: ["/design/git", "/usr/bin/git"],
    found: "/usr/bin/git",
  },
  {
    name: "a folder in the repository",
    path: "/designs/north/node_modules/.bin:/usr/bin",
    programs: ["/designs/north/node_modules/.bin/git", "/usr/bin/git"],
    found: "/usr/bin/git",
  },
  {
    name: "the repository itself",
    path: "/designs/north",
    programs: ["/designs/north/git"],
    found: undefined,
  },
  {
    name: "a link into the repository",
    path: "/link/bin:/usr/bin",
    programs: ["/link/bin/git", "/usr/bin/git"],
    found: "/usr/bin/git",
  },
  {
    name: "beside the repository, by a name that begins like its own",
    path: "/designs/north-tools",
    programs: ["/designs/north-tools/git"],
    found: "/designs/north-tools/git",
  },
  {
    name: "a folder whose name begins with two dots",
    path: "/designs/..north",
    programs: ["/designs/..north/git"],
    found: "/designs/..north/git",
  },
  {
    name: "on Windows by its ending",
    windows: true,
    path: "C:\\tools;C:\\Git\\cmd",
    programs: ["C:\\tools\\git", "C:\\tools\\git.cmd", "C:\\tools\\git.bat", "C:\\Git\\cmd\\git.exe"],
    found: "C:\\Git\\cmd\\git.exe",
  },
  {
    name: "on Windows not the working folder",
    windows: true,
    path: ".;C:\\design;\\tools;C:tools",
    programs: [".\\git.exe", "git.exe", "C:\\design\\git.exe", "\\tools\\git.exe", "C:tools\\git.exe"],
    found: undefined,
  },
  {
    name: "on Windows in quotes",
    windows: true,
    path: '"C:\\Program Files\\Git\\cmd"',
    programs: ["C:\\Program Files\\Git\\cmd\\git.exe"],
    found: "C:\\Program Files\\Git\\cmd\\git.exe",
  },
  {
    name: "on Windows not in the repository, in whatever case",
    windows: true,
    path: "c:\\DESIGNS\\north\\bin",
    programs: ["c:\\DESIGNS\\north\\bin\\git.exe"],
    found: undefined,
  },
];

describe("git is", () => {
  for (const { name, windows = false, path, programs, found } of CASES)
    it(name, () => expect(findProgram("git", lookUp(windows, path, programs))).toBe(found));

  it("not looked for by what git itself is given as its path", () => {
    expect(ownFolders(lookUp(false, ":bin:/design:/designs/north/bin:/usr/bin:/bin", []))).toEqual([
      "/usr/bin",
      "/bin",
    ]);
  });
});

describe("a repository leads to a share of the network by", () => {
  const SHARE = "//host/share/x";
  const led = (files: Readonly<Record<string, string>>, root = "/r") => {
    const read: string[] = [];
    const share = shareLedTo(root, (path) => {
      read.push(path);
      return files[path] ?? "";
    });
    // Nothing is read there to find out.
    expect(read.filter((path) => /^[\\/]{2}/.test(path))).toEqual([]);
    return share;
  };
  const config = (text: string) => ({ "/r/.git/config": text });

  const WAYS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
    "its folder": { "/r/.git": `gitdir: ${SHARE}\n` },
    "the folder it shares with others": { "/r/.git": "gitdir: g\n", "/r/g/commondir": `${SHARE}\n` },
    "its objects": { "/r/.git/objects/info/alternates": `# here\n/other/objects\n${SHARE}\n` },
    "the objects of its objects": {
      "/r/.git/objects/info/alternates": "../../o\n",
      "/r/o/info/alternates": `"${SHARE}"\n`,
    },
    "a file that its configuration includes": config(`[include]\n\tpath = ${SHARE}\n`),
    "a file that an included file includes": {
      ...config('[includeIf "gitdir:/"]path=../inc ; here\n[include]\n\tpath = "../inc"\n'),
      "/r/inc": `[include] path = "${SHARE}"\n`,
    },
    "its work tree": config(`[core]\n\tworktree = ${SHARE}\n`),
    "its attributes, over two lines": config(`[core]\n\tattributesFile = \\\n${SHARE}\n`),
    "a name in pieces of quotes": config(`[core]\n\thooksPath = "/""/host/share/x"\n`),
    "the configuration of its work tree": {
      "/r/.git/config.worktree": `[core]\n\texcludesFile = ${SHARE}\n`,
    },
  };
  for (const [way, files] of Object.entries(WAYS)) it(way, () => expect(led(files)).toBe(SHARE));

  it("backslashes", () => {
    expect(led(config('[core]\n\tworktree = "\\\\\\\\host\\\\share"\n'))).toBe("\\\\host\\share");
    expect(led({ "/r/.git": "gitdir: \\\\host\\share\n" })).toBe("\\\\host\\share");
  });

  it("and not by the address of a remote, or a place on this machine", () => {
    const remote = `[remote "origin"]\n\turl = ${SHARE}\n\tpushurl = ${SHARE}\n[url "x"]\n\tinsteadOf = ${SHARE}\n`;
    expect(led(config(`${remote}[core]\n\tworktree = ../..\n\tabbrev = 7\n`))).toBeUndefined();
    expect(led({ "/r/.git/objects/info/alternates": "/other/objects\n" })).toBeUndefined();
    // Circles end.
    expect(led({ "/r/.git/objects/info/alternates": "/r/.git/objects\n" })).toBeUndefined();
    expect(led(config(`[include]\n${"\tpath = config\n".repeat(1000)}`))).toBeUndefined();
  });
});
