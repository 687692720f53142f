// Opens pages of the site in headless Chromium and writes what is wrong with each, as JSON.
// Arguments: folder with node_modules, folder of the site, what to look for (`looks`, `overlaps`,
// `keys`, `A4`, `Letter`), names of pages.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { overlaps } from '../browser/overlap.mjs';

const [modules, site, wanted, ...names] = process.argv.slice(2);
const require = createRequire(join(modules, 'node_modules', 'x.js'));
const { chromium } = require('playwright-core');
const axe = readFileSync(require.resolve('axe-core'), 'utf8');
const home = pathToFileURL(site).href + '/';

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
// Each look: width of the window, colours asked for, whether it is for paper, the pages at which
// axe-core looks too: it takes most of the time, and lists differ from width to width in their
// columns only. Paper is as wide as A4 and Letter between the margins of a page of the site, 180 and
// 185.9 mm at 96 dots an inch.
const none = () => false;
const looks = {
  looks: [
    [320, 'light', 'screen', () => true],
    [820, 'light', 'screen', none],
    [1280, 'dark', 'screen', (name) => name.includes('/') || name === 'index.html'],
    [680, 'light', 'print', none],
    [702, 'light', 'print', none],
  ],
  overlaps: [[1280, 'light', 'screen', none]],
  keys: [[820, 'light', 'screen', none]],
  // Sheets, which have margins of their own that leave as much.
  A4: [[680, 'light', 'print', none]],
  Letter: [[702, 'light', 'print', none]],
}[wanted];

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const wrong = [];
let seen = 0;
let tabs = 0;

async function look([width, , media, withAxe], page, name) {
  const told = (what) => wrong.push(`${name} at ${width} px, ${media}: ${what}`);
  page.removeAllListeners();
  page.on('console', (said) => ['error', 'warning'].includes(said.type()) && told(`console: ${said.text()}`));
  page.on('pageerror', (error) => told(`script: ${error}`));
  page.on('request', (request) => request.url().startsWith(home) || told(`asks for ${request.url()}`));
  page.on('requestfailed', (request) => told(`does not get ${request.url()}`));
  await page.goto(home + name);
  // What sticks out, unless it scrolls within a box of its own.
  const out = await page.evaluate(() => {
    const wide = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= wide) return [];
    const inBox = (one) => one.closest('.wide') && !one.matches('.wide');
    const all = [...document.querySelectorAll('body *')].filter((one) => !inBox(one));
    const over = all.filter((one) => one.getBoundingClientRect().right > wide + 0.5);
    return over.slice(-2).map((one) => one.outerHTML.slice(0, 80)).concat('');
  });
  if (out.length) told(`scrolls sideways: ${out.join(' ')}`);
  for (const pair of await page.evaluate(overlaps)) told(pair);
  for (const one of await page.evaluate(parted)) told(`a number parted from its unit: ${one}`);
  if (wanted === 'keys') for (const one of await tabbed(page)) told(one);
  if (withAxe(name)) {
    await page.evaluate(axe);
    const found = await page.evaluate((tags) => axe.run({ runOnly: tags, resultTypes: ['violations'], preload: false }), rules);
    for (const one of found.violations) {
      told(`${one.id}: ${one.help}: ${one.nodes[0].html.slice(0, 120)} (${one.nodes.length} places)`);
    }
  }
  seen += 1;
}

// Numbers whose unit stands on the next line; two at most. A sketch keeps its own lines, a drawing has
// no lines that break.
function parted() {
  const found = [];
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode() && found.length < 2) {
    const text = texts.currentNode;
    if (text.parentElement.closest('script, style, pre, svg')) continue;
    // The head of a stacked table is for ears alone, in a box of a pixel.
    if (text.parentElement.closest('thead')?.getBoundingClientRect().width <= 1) continue;
    for (const one of text.data.matchAll(/\d[ \u00a0](?:mm|m|in|%|°|deg|rpm|GPa|min)(?![\p{L}\d])/gu)) {
      const range = document.createRange();
      range.setStart(text, one.index);
      range.setEnd(text, one.index + one[0].length);
      const lines = new Set([...range.getClientRects()].map((box) => Math.round(box.bottom)));
      if (lines.size > 1) found.push(text.data.slice(Math.max(0, one.index - 30), one.index + 8));
    }
  }
  return found;
}

// Presses Tab through the page: everything that can be used must be reached once, in the order of
// the page, with a ring around it, in view and under nothing (WCAG 2.2: 2.1.1, 2.4.3, 2.4.7, 2.4.11).
async function tabbed(page) {
  const count = await page.evaluate(() => {
    const usable = 'a[href], button, input, select, textarea, summary, [tabindex="0"]';
    const all = [...document.querySelectorAll(usable)];
    window.stops = all.filter((one) => one.checkVisibility({ visibilityProperty: true }) && !one.disabled);
    return window.stops.length;
  });
  const found = [];
  for (let at = 0; at < count && found.length < 3; at++) {
    await page.keyboard.press('Tab');
    const fault = await page.evaluate((expected) => {
      const one = document.activeElement;
      const said = one.outerHTML.slice(0, 80);
      if (one !== window.stops[expected]) return `Tab ${expected + 1} leads to ${said}`;
      const ring = getComputedStyle(one);
      if (ring.outlineStyle === 'none' || parseFloat(ring.outlineWidth) < 2) return `no ring: ${said}`;
      // A box taller than the window is in sight where a part of it is.
      const box = one.getClientRects()[0];
      const [above, below] = [Math.max(box.top, 0), Math.min(box.bottom, innerHeight)];
      const [x, y] = [box.left + Math.min(box.width / 2, 40), (above + below) / 2];
      const top = document.elementFromPoint(x, y);
      if (!top || !(one.contains(top) || top.contains(one))) return `out of sight: ${said}`;
      return '';
    }, at);
    if (fault) found.push(fault);
    tabs += 1;
  }
  return found;
}

// Half of the looks in each of two windows, since two cores are common.
async function walk(turn) {
  for (const one of looks) {
    const [width, colorScheme, media] = one;
    const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
    const page = await context.newPage();
    await page.emulateMedia({ media, colorScheme });
    for (const name of names.filter((_, at) => at % 2 === turn)) await look(one, page, name);
    await context.close();
  }
}

await Promise.all([walk(0), walk(1)]);
await browser.close();
console.log(JSON.stringify({ seen, tabs, wrong }));
