// The slider: its numbers and verdicts are those of `size --fitted`.
import assert from "node:assert/strict";
import { test } from "node:test";
import { kinds } from "./sheets.mjs";
import { demo, opened, sized } from "./support.mjs";

const KEYS = [
  "insertion_loss_db",
  "added_loss_db",
  "return_loss_db",
  "return_loss_inner_db",
  "reflection",
  "nyquist_amplitude",
  "eye_penalty",
];
/** Relative; of decibels and ratios near zero absolute. */
const CLOSE = 1e-6;
/** Half a unit of the last of four digits, relative to the smallest of them. */
const FOUR_DIGITS = 5.0001e-4;

/** What a section shows. */
const shown = (section) =>
  section.evaluate((one) => ({
    box: one.querySelector("input[type=number]").valueAsNumber,
    slider: one.querySelector("input[type=range]").valueAsNumber,
    invalid: one.querySelector("input[type=number]").ariaInvalid,
    said: one.querySelector(".said[role=status]").textContent,
    data: [...one.querySelectorAll("data")].map((cell) => ({
      key: cell.dataset.key,
      value: cell.value,
      text: cell.textContent,
      unit: cell.dataset.unit,
      without: cell.dataset.without,
    })),
    limits: [...one.querySelectorAll("tr[data-limit]")].map((row) => ({
      limit: row.dataset.limit,
      computed: "figure" in row.dataset,
      value: row.querySelector(".value").textContent,
      state: row.querySelector(".state").textContent,
      broken: row.classList.contains("broken"),
    })),
    curves: [...one.querySelectorAll("svg.live-window path.live-curve")].map((path) => path.getAttribute("d")),
  }));

/** A number as it is shown, in the unit of the results. */
const read = (text, unit) => Number(text.replace(unit, "")) * (unit === "%" ? 0.01 : 1);

function agree(page, lane, told, what) {
  const near = (a, b, share, least) => Math.abs(a - b) <= share * Math.max(Math.abs(b), least);
  assert.deepEqual(page.data.map(({ key }) => key).sort(), [...KEYS].sort(), what);
  for (const { key, value, text, unit, without } of page.data) {
    const expected = told[key];
    if (expected === null) {
      assert.deepEqual([value, text], ["", without], `${what}: ${key}`);
    } else {
      assert.ok(value !== "" && near(Number(value), expected, CLOSE, 1), `${what}: ${key} ${value}, not ${expected}`);
      assert.ok(near(read(text, unit), expected, FOUR_DIGITS, 1e-9), `${what}: ${key} reads ${text}, not ${expected}`);
    }
  }
  assert.deepEqual(page.limits.map(({ limit }) => limit), lane.budget.limits.map(({ limit }) => limit), what);
  for (const { limit, computed, value, state, broken } of page.limits) {
    const verdict = told.headroom.find((headroom) => headroom.limit === limit);
    assert.equal(state, verdict.holds ? "holds" : "breaks", `${what}: ${limit}`);
    assert.equal(broken, !verdict.holds, `${what}: ${limit}`);
    if (computed && verdict.value !== null) {
      const unit = limit === "eye_penalty" ? "%" : "dB";
      assert.ok(near(read(value, unit), verdict.value, FOUR_DIGITS, 0), `${what}: ${limit} ${value}, not ${verdict.value}`);
    }
  }
  const broken = told.headroom.filter(({ holds }) => !holds).map(({ limit }) => limit);
  const verdict = broken.length === 0 ? "every limit holds" : `breaks ${broken.join(", ")}`;
  const [, stated, tried, found, worst] = /^(As stated, at|At) (\S+) pF:? (.*?)(; worst case within the tolerances: .+)?\.$/.exec(page.said) ?? [];
  assert.equal(found, verdict, `${what}: ${page.said}`);
  assert.deepEqual([stated !== "At", worst !== undefined], Array(2).fill(lane.tolerance !== null), `${what}: ${page.said}`);
  assert.ok(near(Number(tried), page.box, FOUR_DIGITS, 0), `${what}: ${page.said}`);
}

for (const page of [demo, kinds]) {
  // The time domain is in it: what masks and eyes say about a capacitance is compared too.
  const results = new Map();
  const at = (c) => results.get(c) ?? results.set(c, sized(page, c)).get(c);
  const lanes = at(0).lanes;

  for (const [index, { name }] of lanes.entries()) {
    const check = (state, what) => {
      const lane = at(state.box).lanes[index];
      assert.equal(lane.name, name);
      agree(state, lane, lane.fitted, `${what} at ${state.box} pF`);
    };

    test(`${page.name}, ${name}: box and slider give the numbers of the tool, and move the curves`, () =>
      opened(page, {}, async (tab) => {
        const section = tab.locator("section.line").nth(index);
        const [box, slider] = [section.locator("input[type=number]"), section.locator("input[type=range]")];
        assert.equal(await section.locator("> .bench > .live").getAttribute("hidden"), null);
        check(await shown(section), "at first");
        const highest = Number(await slider.getAttribute("max"));
        const drawn = new Set();
        for (const share of [0, 0.17, 0.4, 0.731, 0.999]) {
          const given = Number((share * highest).toPrecision(6));
          await slider.fill(String(given));
          const state = await shown(section);
          assert.ok(Math.abs(state.box - state.slider) <= FOUR_DIGITS * state.slider, `${state.box}, ${state.slider}`);
          assert.ok(Math.abs(state.slider - given) <= 1e-9 * highest, `${state.slider}, not ${given}`);
          check(state, "slider");
          // Without a reflection there is no return loss to draw.
          const nothing = state.curves.filter((curve) => curve.length < 5);
          assert.ok(state.curves.length > 2 && nothing.length <= (share === 0 ? 2 : 0), `${state.curves.length}, ${nothing.length}`);
          state.curves.forEach((curve, place) => drawn.add(`${place} ${curve}`));
        }
        const { curves } = await shown(section);
        assert.equal(drawn.size, 5 * curves.length, "every curve moves with every step");
        for (const share of [0, 0.0371, 0.52, 0.9, 3]) {
          const given = Number((share * highest).toPrecision(5));
          await box.fill(String(given));
          const state = await shown(section);
          assert.equal(state.box, given);
          const along = Math.min(given, highest);
          assert.ok(Math.abs(state.slider - along) <= 1e-9 * highest, `${state.slider}, not ${along}`);
          check(state, "box");
        }
      }));
  }

  test(`${page.name}: only lanes have a slider`, () =>
    opened(page, {}, async (tab) => {
      const sections = await tab.locator("section.line").evaluateAll((all) => all.map((one) => !!one.querySelector(".live")));
      assert.ok(sections.length > lanes.length);
      assert.deepEqual(sections, sections.map((_, index) => index < lanes.length));
    }));
}

test("with what is fitted, the tried curve lies on the drawn one", () =>
  opened(demo, {}, async (tab) => {
    for (const section of await tab.locator("section.line:has(.live)").all()) {
      const found = await section.evaluate(apart);
      assert.ok(found.length > 2, "loss, reflection, penalty");
      for (const { looked, off } of found) {
        assert.ok(looked > 20, `${looked} points`);
        assert.deepEqual(off, []);
      }
    }
  }));

/** In the page: of each tried curve, how many points lie within its panel, and which of them more than 2 points from the drawn one. */
function apart(section) {
  return [...section.querySelectorAll("svg.live-window")].map((window) => {
    const chart = window.ownerSVGElement;
    const unit = chart.viewBox.baseVal.width / chart.width.baseVal.value;
    const drawn = [...chart.querySelectorAll('path[stroke="#1D5FB4" i]')];
    drawn.forEach((path) => Object.assign(path.style, { strokeWidth: String(2 * 2 * unit), strokeLinecap: "round" }));
    const [x, y, width, height] = ["x", "y", "width", "height"].map((edge) => window[edge].baseVal.value);
    const tried = window.querySelector("path.live-curve");
    const within = (point) => point.x >= 0 && point.x <= width && point.y >= 0 && point.y <= height;
    const points = Array.from({ length: 200 }, (_, i) => tried.getPointAtLength((i / 199) * tried.getTotalLength())).filter(within);
    const off = points.filter((point) => !drawn.some((path) => path.isPointInStroke(new DOMPoint(point.x + x, point.y + y))));
    drawn.forEach((path) => path.removeAttribute("style"));
    return { looked: points.length, off: off.map((point) => `${point.x / unit} ${point.y / unit}`) };
  });
}

test("what is no capacitance is refused, and what stood there stays", () =>
  opened(demo, {}, async (tab) => {
    const section = tab.locator("section.line").first();
    const box = section.locator("input[type=number]");
    const before = await shown(section);
    for (const wrong of ["-0.1", ""]) {
      await box.fill(wrong);
      const after = await shown(section);
      assert.equal(after.invalid, "true");
      assert.equal(after.said, "Give a capacitance of 0 pF or more.");
      assert.deepEqual([after.data, after.curves], [before.data, before.curves]);
    }
    await box.fill("0.3");
    const after = await shown(section);
    assert.equal(after.invalid, null);
    assert.match(after.said, /[Aa]t 0\.3 pF /);
  }));

// By hand: 20 log10|1 + i pi f C Z/2| = 10 dB for 50 ohm at 500 MHz has C = 1/(pi f Z 3) = 4.244 pF; without a protector no loss.
test("a limit met exactly and a loss of nothing are shown in few digits", () =>
  opened(kinds, {}, async (tab) => {
    const [empty, bare] = [tab.locator("section.line").first(), tab.locator("section.line").nth(1)];
    const row = (await shown(bare)).limits.find(({ limit }) => limit === "return_loss");
    assert.deepEqual([row.value, row.state], ["10 dB", "holds"]);
    await empty.locator("input[type=number]").fill("0");
    const loss = (await shown(empty)).data.find(({ key }) => key === "added_loss_db");
    assert.equal(loss.text, "0 dB");
  }));

test("one lane's slider leaves the others alone", () =>
  opened(demo, {}, async (tab) => {
    const other = tab.locator("section.line").nth(1);
    const before = await shown(other);
    await tab.locator("section.line").first().locator("input[type=range]").fill("0.1");
    assert.deepEqual(await shown(other), before);
  }));
