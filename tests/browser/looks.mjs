// How the page looks: on a narrow screen, on a light and a dark one, and to a machine that checks accessibility.
import assert from "node:assert/strict";
import { test } from "node:test";
import axe from "axe-core";
import { hostile, kinds } from "./sheets.mjs";
import { demo, opened } from "./support.mjs";

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
  // WCAG 2.2, 1.4.3 for texts and 1.4.11 for what is needed to understand a picture.
  test(`the charts stand out from their paper, ${colorScheme}`, () =>
    opened(demo, { colorScheme }, async (tab) => {
      const found = await tab.evaluate(contrasts);
      assert.ok(found.text.length > 100 && found.stroke.length > 20, `${found.text.length}, ${found.stroke.length}`);
      assert.deepEqual(found.text.filter(({ ratio }) => ratio < 4.5), []);
      assert.deepEqual(found.stroke.filter(({ ratio }) => ratio < 3), []);
    }));
}

/** In the page: contrast of each text and each fully drawn curve against the paper of its chart, by WCAG's formula. */
function contrasts() {
  const luminance = (color) => {
    const [r, g, b] = color.match(/[\d.]+/g).map((part) => {
      const share = Number(part) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const found = { text: [], stroke: [] };
  for (const chart of document.querySelectorAll("svg.lanecap-chart")) {
    const paper = luminance(getComputedStyle(chart.querySelector(".paper")).fill);
    const against = (color) => {
      const own = luminance(color);
      return { color, ratio: (Math.max(own, paper) + 0.05) / (Math.min(own, paper) + 0.05) };
    };
    chart.querySelectorAll("text").forEach((one) => found.text.push(against(getComputedStyle(one).fill)));
    chart.querySelectorAll("polyline, path").forEach((one) => {
      const { stroke, opacity } = getComputedStyle(one);
      if (stroke !== "none" && opacity === "1") found.stroke.push(against(stroke));
    });
  }
  return found;
}
