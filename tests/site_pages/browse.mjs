// Opens pages of the site in headless Chromium and writes what is wrong with each, as JSON.
// Arguments: folder with node_modules, folder of the site, names of pages.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, site, ...names] = process.argv.slice(2);
const require = createRequire(join(modules, 'node_modules', 'x.js'));
const { chromium } = require('playwright-core');
const axe = readFileSync(require.resolve('axe-core'), 'utf8');
const home = pathToFileURL(site).href + '/';

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
// Width of the window, colours asked for, the pages at which axe-core looks too: it takes most of
// the time, and lists differ from width to width in their columns only.
const looks = [
  [320, 'light', () => true],
  [820, 'light', () => false],
  [1280, 'dark', (name) => name.includes('/') || name === 'index.html'],
];

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const wrong = [];
let seen = 0;

async function look([width, colorScheme, withAxe], page, name) {
  const told = (what) => wrong.push(`${name} at ${width} px: ${what}`);
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
  if (withAxe(name)) {
    await page.evaluate(axe);
    const found = await page.evaluate((tags) => axe.run({ runOnly: tags, resultTypes: ['violations'], preload: false }), rules);
    for (const one of found.violations) {
      told(`${one.id}: ${one.help}: ${one.nodes[0].html.slice(0, 120)} (${one.nodes.length} places)`);
    }
  }
  seen += 1;
}

// Half of the looks in each of two windows, since two cores are common.
async function walk(turn) {
  for (const one of looks) {
    const [width, colorScheme] = one;
    const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
    const page = await context.newPage();
    for (const name of names.filter((_, at) => at % 2 === turn)) await look(one, page, name);
    await context.close();
  }
}

await Promise.all([walk(0), walk(1)]);
await browser.close();
console.log(JSON.stringify({ seen, wrong }));
