// On paper: white, one line a page, whatever the screen.
import assert from "node:assert/strict";
import { test } from "node:test";
import { kinds } from "./sheets.mjs";
import { CURVE, TEXT, contrast, demo, opened } from "./support.mjs";

for (const page of [demo, kinds]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`${page.name}: prints dark on white from a ${colorScheme} screen`, () =>
      opened(page, { colorScheme }, async (tab) => {
        await tab.emulateMedia({ media: "print", colorScheme });
        const style = (selector, name) =>
          tab.locator(selector).evaluateAll((all, name) => all.map((one) => getComputedStyle(one)[name]), name);
        const all = async (selector, name, value) => {
          const found = new Set(await style(selector, name));
          assert.deepEqual([...found], [value], `${name} of ${selector}`);
        };
        await all("body", "backgroundColor", "rgb(255, 255, 255)");
        await all("body, h1, h2, p.verdict, figure", "color", "rgb(0, 0, 0)");
        await all("svg.lanecap-chart .paper", "fill", "rgb(255, 255, 255)");
        await all("section.line", "breakBefore", "page");
        await all(".live, .live-window", "display", "none");
        const faint = (colours, least) => colours.filter((one) => one !== "none" && contrast(one, "rgb(255, 255, 255)") < least);
        assert.deepEqual(faint(await style("td, th, li, .note, figcaption, .mark", "color"), TEXT), []);
        const [inks, curves] = [await style("svg.lanecap-chart > g > text", "fill"), await style("svg.lanecap-chart > g > path", "stroke")];
        assert.ok(inks.length > 20 && curves.length > 10, `${inks.length}, ${curves.length}`);
        assert.deepEqual(faint(inks, TEXT), []);
        assert.deepEqual(faint(curves, CURVE), []);
        for (const chart of await tab.locator("figure svg.lanecap-chart").all()) {
          const light = await shareOfWhite(tab, await chart.screenshot());
          assert.ok(light > 0.5, `${light} of a chart is white`);
        }
      }));
  }

  test(`${page.name}: every line begins a sheet of paper`, () =>
    opened(page, {}, async (tab) => {
      const lines = await tab.locator("section.line").count();
      const pages = pagesOf(await tab.pdf({ format: "A4" }));
      // Without the breaks the lines run on: fewer pages.
      await tab.evaluate(() => document.querySelectorAll("section.line").forEach((one) => (one.style.breakBefore = "auto")));
      const run = pagesOf(await tab.pdf({ format: "A4" }));
      assert.ok(pages > lines && pages > run, `${pages} pages, ${run} without breaks, ${lines} lines`);
    }));
}

const pagesOf = (pdf) => pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;

/** How much of a picture is white or nearly so; the browser itself reads the picture. */
async function shareOfWhite(tab, png) {
  const blank = await tab.context().newPage();
  const share = await blank.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const picture = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const pen = new OffscreenCanvas(picture.width, picture.height).getContext("2d");
    pen.drawImage(picture, 0, 0);
    const { data } = pen.getImageData(0, 0, picture.width, picture.height);
    let white = 0;
    for (let at = 0; at < data.length; at += 4) white += data[at] > 240 && data[at + 1] > 240 && data[at + 2] > 240;
    return (4 * white) / data.length;
  }, png.toString("base64"));
  await blank.close();
  return share;
}
