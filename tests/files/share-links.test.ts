import { expect, test } from "vitest";
import { shareLinkedTo } from "../../server/files/share-links.js";

function leads(links: Readonly<Record<string, string>>, from: string, windows = true) {
  const read: string[] = [];
  const target = shareLinkedTo(from, windows, (path) => {
    read.push(path);
    const link = links[path];
    if (link === undefined) throw new Error("no link");
    return link;
  });
  expect(read.filter((path) => /^[\\/]{2}/.test(path) && !from.startsWith("\\\\"))).toEqual([]);
  return target;
}

test("a link to a share is known without a look at it, on Windows", () => {
  const share = "\\\\host\\share\\x.hop";
  expect(leads({ "C:\\d\\a.hop": share }, "C:\\d\\a.hop")).toBe(share);
  expect(leads({ "C:\\d\\a.hop": "//host/share" }, "C:\\d\\a.hop")).toBe("//host/share");
  expect(leads({ "C:\\d\\a": "..\\b", "C:\\b": "c", "C:\\c": share }, "C:\\d\\a")).toBe(share);
  // Elsewhere two strokes are one.
  expect(leads({ "/d/a": "//host/share" }, "/d/a", false)).toBeUndefined();
});

test("a link on this machine, in a circle, or on the share itself is none", () => {
  expect(leads({ "C:\\a": "D:\\b" }, "C:\\a")).toBeUndefined();
  expect(leads({ "C:\\a": "b", "C:\\b": "a" }, "C:\\a")).toBeUndefined();
  expect(leads({}, "C:\\a")).toBeUndefined();
  expect(leads({ "\\\\Host\\share\\a": "\\\\host\\Share\\b" }, "\\\\Host\\share\\a")).toBeUndefined();
});
