// The tool, the pages it writes, and one browser for all tests.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const TOOL = process.env.LANECAP ?? fileURLToPath(new URL("../../target/debug/lanecap", import.meta.url));
const BROWSERS = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
const ARGUMENTS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const folder = mkdtempSync(join(tmpdir(), "lanecap-browser-"));
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? BROWSERS.find(existsSync),
  args: ARGUMENTS,
});
after(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

/** What the tool prints. `size` ends with 1 where a line breaks a limit; 2 is an error. */
export function lanecap(...words) {
  const run = spawnSync(TOOL, words, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (run.error) throw run.error;
  if (run.status !== 0 && run.status !== 1) throw new Error(`lanecap ${words.join(" ")}: ${run.stderr}`);
  return run.stdout;
}

/** A sheet and the page of it: `sheet` is a file, or `--demo`. */
function written(name, sheet) {
  const page = join(folder, `${name}.html`);
  lanecap("report", sheet, "-o", page);
  return { name, sheet, url: pathToFileURL(page).href };
}

/** The page of a text; the sheet's file has a name of its own. */
export function pageOf(name, text, file = `${name}.lanes`) {
  const sheet = join(folder, file);
  writeFileSync(sheet, text);
  return written(name, sheet);
}

export const demo = written("demo", "--demo");

/** The results of `size` with the same capacitance in every lane. */
export function sized(page, picofarad) {
  return JSON.parse(lanecap("size", page.sheet, "--fitted", `${picofarad}pF`, "--format", "json"));
}

/** Opens a page in a window of its own and closes it after `use`. */
export async function opened({ url }, options, use) {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, ...options });
  try {
    const tab = await context.newPage();
    await tab.goto(url);
    await use(tab);
  } finally {
    await context.close();
  }
}

/** Opens a page and gives `use` the addresses it asked for and its complaints, from before its first line on. */
export async function watched({ url }, use) {
  const context = await browser.newContext();
  try {
    const tab = await context.newPage();
    const [asked, complaints] = [[], []];
    tab.on("request", (request) => asked.push(request.url()));
    tab.on("websocket", (socket) => asked.push(socket.url()));
    tab.on("dialog", (dialog) => (complaints.push(`dialog: ${dialog.message()}`), dialog.dismiss()));
    tab.on("pageerror", (error) => complaints.push(String(error)));
    tab.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
    await tab.goto(url);
    await use(tab, asked, complaints);
  } finally {
    await context.close();
  }
}

/** WCAG 2.2, 1.4.3: contrast of a text. */
export const TEXT = 4.5;
/** 1.4.11, of a curve. */
export const CURVE = 3;

/** Contrast of two colours of a computed style, by the formula of WCAG 2.2: 1 for equal ones, 21 for black and white. */
export function contrast(one, other) {
  const luminance = (color) => {
    const [r, g, b] = color.match(/[\d.]+/g).map((part) => {
      const share = Number(part) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}
