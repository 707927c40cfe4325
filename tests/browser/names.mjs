// What a sheet calls its things is text on the page, whatever it looks like.
import assert from "node:assert/strict";
import { test } from "node:test";
import { NAMES, OTHERS, hostile } from "./sheets.mjs";
import { opened } from "./support.mjs";

const texts = (tab, selector) => tab.locator(selector).evaluateAll((all) => all.map((one) => one.textContent));

test("hostile names: nothing runs, and nothing becomes markup", () =>
  opened(hostile, {}, async (tab) => {
    assert.equal(await tab.evaluate(() => window.pwned), undefined);
    const count = (selector) => tab.locator(selector).count();
    assert.equal(await count("script:not([type])"), 1);
    assert.equal(await count("script"), 1 + NAMES.length, "the coefficients of each lane");
    for (const foreign of ["img", "b", "iframe", "object", "embed", "form", "link", "base", "figure svg svg:not(.live-window)"]) {
      assert.equal(await count(foreign), 0, foreign);
    }
    const attributes = await tab.evaluate(() =>
      [...document.querySelectorAll("*")].flatMap((one) => [...one.attributes].map(({ name, value }) => ({ name, value }))));
    assert.deepEqual(attributes.filter(({ name }) => name.startsWith("on") || name === "src"), []);
    const links = attributes.filter(({ name }) => name === "href");
    assert.ok(links.length >= NAMES.length);
    assert.deepEqual(links.filter(({ value }) => !/^#line-\d+$/.test(value)), []);
  }));

test("hostile names: they stand as written", () =>
  opened(hostile, {}, async (tab) => {
    const title = NAMES.slice(0, 5).join(" ");
    assert.equal(await tab.title(), title);
    assert.deepEqual(await texts(tab, "h1"), [title]);
    const lines = [...NAMES, ...OTHERS];
    assert.deepEqual(await texts(tab, "section.line > h2"), lines);
    assert.deepEqual(await texts(tab, "th a"), lines);
    // Ports head the rows of their bill, parts stand beside them.
    const bill = 'div.table[aria-label="The bill of each port"] tbody tr';
    const [ports, parts] = [await texts(tab, `${bill} th`), await texts(tab, `${bill} td:nth-child(2)`)];
    for (const name of NAMES) {
      assert.ok(ports.includes(name), `port ${name}`);
      assert.ok(parts.includes(name), `part ${name}`);
    }
    // The reader's own control names its lane.
    const labels = await tab.locator(".live input[type=range]").evaluateAll((all) => all.map((one) => one.ariaLabel));
    assert.deepEqual(labels, NAMES.map((name) => `Protector of ${name} in picofarad`));
    // The charts do too; a long name is cut there.
    const pictures = await texts(tab, "section.line .bench figure:first-of-type svg > title");
    lines.slice(0, NAMES.length).forEach((name, index) => {
      const start = [...name].slice(0, 30).join("");
      assert.ok(pictures[index].trim().startsWith(start), `${name}: ${pictures[index]}`);
    });
  }));
