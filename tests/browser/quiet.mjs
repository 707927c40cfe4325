// The page asks for nothing but itself and has nothing to complain of.
import assert from "node:assert/strict";
import { test } from "node:test";
import { hostile, kinds } from "./sheets.mjs";
import { demo, watched } from "./support.mjs";

for (const page of [demo, kinds, hostile]) {
  test(`${page.name}: no request, no error, while it opens and while it is used`, () =>
    watched(page, async (tab, asked, complaints) => {
      for (const slider of await tab.locator("section.line input[type=range]").all()) {
        await slider.fill("0");
        await slider.press("End");
      }
      for (const working of await tab.locator("summary").all()) await working.click();
      await tab.waitForLoadState("networkidle");
      assert.deepEqual(asked, [page.url]);
      assert.deepEqual(complaints, []);
    }));
}
