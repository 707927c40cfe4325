// How the page looks: on a narrow screen, on a light and a dark one, and to a machine that checks accessibility.
import assert from "node:assert/strict";
import { test } from "node:test";
import axe from "axe-core";
import { hostile, kinds } from "./sheets.mjs";
import { CURVE, TEXT, contrast, demo, opened } from "./support.mjs";

const PAGES = [demo, kinds, hostile];

for (const page of PAGES) {
  for (const width of [400, 320]) {
    test(`${page.name}: nothing scrolls sideways at ${width} px`, () =>
      opened(page, { viewport: { width, height: 800 } }, async (tab) => {
        for (const working of await tab.locator("summary").all()) await working.click();
        const wide = await tab.evaluate(() => document.documentElement.scrollWidth);
        assert.ok(wide <= width, `${wide} px`);
      }));
  }
  for (const colorScheme of ["light", "dark"]) {
    for (const width of [1200, 400]) {
      test(`${page.name}: accessible, ${colorScheme}, ${width} px`, () =>
        opened(page, { colorScheme, viewport: { width, height: 800 } }, async (tab) => {
          for (const working of await tab.locator("summary").all()) await working.click();
          const { violations, passes } = await audit(tab);
          assert.deepEqual(violations, []);
          assert.ok(passes.includes("color-contrast"), "the contrast was measured");
        }));
    }
  }
}

/** Rules that do not hold, with their elements, and the names of those that do. */
async function audit(tab) {
  await tab.evaluate(axe.source);
  return tab.evaluate(async () => {
    const { violations, passes } = await window.axe.run(document);
    const told = ({ id, nodes }) => `${id}: ${nodes.map((node) => node.failureSummary + node.html.slice(0, 200)).join("; ")}`;
    return { violations: violations.map(told), passes: passes.map(({ id }) => id) };
  });
}

for (const colorScheme of ["light", "dark"]) {
  test(`the charts stand out from their paper, ${colorScheme}`, () =>
    opened(demo, { colorScheme }, async (tab) => {
      const { texts, curves } = await tab.evaluate(colours);
      assert.ok(texts.length > 100 && curves.length > 20, `${texts.length}, ${curves.length}`);
      const faint = (pairs, least) => [...new Set(pairs.filter(([ink, paper]) => contrast(ink, paper) < least).map(String))];
      assert.deepEqual(faint(texts, TEXT), []);
      assert.deepEqual(faint(curves, CURVE), []);
    }));
}

/** In the page: the colour of each text and of each fully drawn curve of the charts, with that of its paper. */
function colours() {
  const found = { texts: [], curves: [] };
  for (const chart of document.querySelectorAll("svg.lanecap-chart")) {
    const paper = getComputedStyle(chart.querySelector(".paper")).fill;
    chart.querySelectorAll("text").forEach((one) => found.texts.push([getComputedStyle(one).fill, paper]));
    chart.querySelectorAll("path").forEach((one) => {
      const { stroke, opacity } = getComputedStyle(one);
      if (stroke !== "none" && opacity === "1") found.curves.push([stroke, paper]);
    });
  }
  return found;
}
