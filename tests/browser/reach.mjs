// The page without scripts, and by the keyboard alone.
import assert from "node:assert/strict";
import { test } from "node:test";
import { hostile, kinds } from "./sheets.mjs";
import { demo, opened } from "./support.mjs";

for (const page of [demo, kinds, hostile]) {
  test(`${page.name}: without scripts everything but the slider is there`, async () => {
    const counted = async (tab) => ({
      charts: await tab.locator("figure svg.lanecap-chart:visible").count(),
      tables: await tab.locator("div.table > table:visible").count(),
      headings: await tab.locator("h1:visible, h2:visible").allTextContents(),
      workings: await tab.locator("summary:visible").count(),
    });
    const controls = (tab) => tab.locator("input:visible, button:visible, select:visible, [role=status]:visible").count();
    let scripted;
    await opened(page, {}, async (tab) => {
      scripted = await counted(tab);
      assert.ok((await controls(tab)) > 0);
    });
    await opened(page, { javaScriptEnabled: false }, async (tab) => {
      assert.deepEqual(await counted(tab), scripted);
      assert.ok(scripted.charts > 0 && scripted.tables > 0);
      assert.equal(await controls(tab), 0);
      assert.equal(await tab.locator(".live").count(), await tab.locator(".live[hidden]").count());
      await tab.locator("summary").first().click();
      assert.ok(await tab.locator("details pre").first().isVisible());
    });
  });
}

/** The element that has the focus: what it is, whether it shows that, and whether any of it can be seen. */
const focused = (tab) =>
  tab.evaluate(() => {
    const one = document.activeElement;
    const { outlineStyle, outlineWidth } = getComputedStyle(one);
    const { left, right, top, bottom } = one.getBoundingClientRect();
    const inside = (low, high, end) => (Math.max(low, 0) + Math.min(high, end)) / 2;
    const [x, y] = [inside(left, right, innerWidth), inside(top, bottom, innerHeight)];
    const there = document.elementFromPoint(x, y);
    return {
      is: one.id || `${one.localName} ${one.type ?? ""} ${one.ariaLabel ?? one.textContent.slice(0, 40)}`,
      line: one.closest("section.line")?.id ?? null,
      kind: one.localName === "input" ? one.type : one.localName,
      outlined: one.matches(":focus-visible") && outlineStyle !== "none" && parseFloat(outlineWidth) > 0,
      uncovered: there !== null && (one === there || one.contains(there)),
    };
  });

for (const width of [1200, 400]) {
  test(`the tab key reaches every control and shows where it is, ${width} px`, () =>
    opened(demo, { viewport: { width, height: 800 } }, async (tab) => {
      const stops = [];
      for (let step = 0; step < 300; step += 1) {
        await tab.keyboard.press("Tab");
        const stop = await focused(tab);
        if (stop.kind === "body") break;
        stops.push(stop);
      }
      assert.deepEqual(stops.filter(({ outlined, uncovered }) => !outlined || !uncovered), []);
      const lanes = await tab.locator("section.line:has(.live)").evaluateAll((all) => all.map(({ id }) => id));
      for (const kind of ["number", "range", "summary"]) {
        const reached = stops.filter((stop) => stop.kind === kind).map(({ line }) => line);
        assert.deepEqual(reached.filter((line) => lanes.includes(line)), lanes, kind);
      }
    }));
}

test("arrow keys move the slider and the box, and the figures follow", () =>
  opened(demo, {}, async (tab) => {
    const section = tab.locator("section.line").first();
    const [box, slider] = [section.locator("input[type=number]"), section.locator("input[type=range]")];
    const loss = async () => Number(await section.locator("data[data-key=insertion_loss_db]").getAttribute("value"));
    for (let step = 0; step < 300 && (await focused(tab)).kind !== "range"; step += 1) await tab.keyboard.press("Tab");
    assert.equal((await focused(tab)).kind, "range");
    const [start, at] = [await loss(), Number(await box.inputValue())];
    await tab.keyboard.press("ArrowRight");
    const [more, up] = [await loss(), Number(await box.inputValue())];
    assert.ok(more > start && up > at, `${at} to ${up} pF, ${start} to ${more} dB`);
    await tab.keyboard.press("Home");
    assert.deepEqual([await box.inputValue(), await slider.inputValue()], ["0", "0"]);
    assert.ok((await loss()) < start);
    await tab.keyboard.press("End");
    const [last, highest] = [Number(await slider.inputValue()), Number(await slider.getAttribute("max"))];
    assert.ok(Math.abs(last - highest) < 1e-9 * highest, `${last}, ${highest}`);
    await tab.keyboard.press("Shift+Tab");
    assert.equal((await focused(tab)).kind, "number");
    const before = Number(await box.inputValue());
    await tab.keyboard.press("ArrowDown");
    assert.ok(Number(await box.inputValue()) < before);
    await box.fill("");
    await tab.keyboard.type("0.25");
    assert.match(await section.locator(".said").textContent(), /[Aa]t 0\.25 pF /);
  }));

test("a name in the summary leads to the section of its line", () =>
  opened(demo, {}, async (tab) => {
    const links = tab.locator("th a");
    for (const link of await links.all()) {
      await link.focus();
      await tab.keyboard.press("Enter");
      const heading = tab.locator(`section${await link.getAttribute("href")} > h2`);
      assert.equal(await heading.textContent(), await link.textContent());
      const { y } = await heading.boundingBox();
      const end = await tab.evaluate(() => Math.abs(scrollY + innerHeight - document.documentElement.scrollHeight) < 2);
      assert.ok(y > -1 && (y < 100 || end), `${y}`);
    }
  }));
