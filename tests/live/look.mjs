// Looks at a live page of the site in headless Chromium as people use it: by keyboard, narrow, with
// faults, on paper, without scripts. Arguments: folder with node_modules, folder of the site. Standard
// input: {page, field, good, bad}. Tells what it saw as JSON; `pdf` is the printed page in base64.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, site] = process.argv.slice(2);
const require = createRequire(join(modules, 'node_modules', 'x.js'));
const { chromium } = require('playwright-core');
const axe = readFileSync(require.resolve('axe-core'), 'utf8');
const asked = JSON.parse(readFileSync(0, 'utf8'));
const address = pathToFileURL(join(site, asked.page)).href;
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const wrong = [];

async function check(page, state) {
  await page.evaluate(axe);
  const found = await page.evaluate((tags) => axe.run({ runOnly: tags, resultTypes: ['violations'], preload: false }), rules);
  for (const one of found.violations) wrong.push(`${state}: ${one.id}: ${one.nodes[0].html.slice(0, 120)}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
  if (wide) wrong.push(`${state}: scrolls sideways`);
}

async function type(page, text) {
  const status = page.locator('form.live [role=status]');
  const before = await status.textContent();
  await page.locator(`form.live [name=${asked.field}]`).focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
  const form = 'form.live [role=status]';
  await page.waitForFunction(([form, before]) => {
    const now = document.querySelector(form).textContent;
    return now && now !== before;
  }, [form, before]);
}

const now = (page) => page.evaluate(() => [...document.querySelectorAll('.now')].map((one) => one.innerText).join('\n'));

const context = await browser.newContext({ viewport: { width: 320, height: 800 } });
const page = await context.newPage();
page.on('console', (one) => ['error', 'warning'].includes(one.type()) && wrong.push(`console: ${one.text()}`));
page.on('pageerror', (error) => wrong.push(`script: ${error}`));
await page.goto(address);
const began = await now(page);
await type(page, asked.bad);
await check(page, 'amiss');
const field = await page.evaluate((name) => {
  const field = document.querySelector(`form.live [name=${name}]`);
  const words = field.getAttribute('aria-describedby').split(' ').map((id) => document.getElementById(id).textContent);
  return { label: field.labels[0].textContent, invalid: field.getAttribute('aria-invalid'), words: words.join(' ') };
}, asked.field);
const amiss = await now(page);
await type(page, asked.good);
await check(page, 'answered');
const answered = await now(page);
const pdf = (await page.pdf({ format: 'A4' })).toString('base64');
await page.locator('form.live button').focus();
await page.keyboard.press('Enter');
const putBack = await now(page);
await context.close();

const plain = await browser.newContext({ javaScriptEnabled: false });
const still = await plain.newPage();
await still.goto(address);
const withoutScript = {
  form: await still.locator('form.live').isVisible(),
  text: await still.locator('main').innerText(),
};
await browser.close();
process.stdout.write(JSON.stringify({ wrong, began, field, amiss, answered, putBack, pdf, withoutScript }));
