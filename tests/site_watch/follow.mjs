// An open page follows a file of the shop; writes what it saw as JSON.
// Arguments: folder with node_modules, address of the site, name of the page, file, words to put
// in the place of words.
import { createRequire } from 'node:module';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const [modules, address, name, file, old, fresh] = process.argv.slice(2);
const require = createRequire(join(modules, 'node_modules', 'x.js'));
const { chromium } = require('playwright-core');

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const context = await browser.newContext();
const asked = new Set();
context.on('request', (request) => request.url() === 'data:,' || asked.add(new URL(request.url()).origin + '/'));
const complaints = [];
const page = await context.newPage();
page.on('console', (said) => said.type() === 'error' && complaints.push(said.text()));
page.on('pageerror', (error) => complaints.push(String(error)));

const shown = (words) => page.waitForFunction(
  (words) => document.querySelector('main').textContent.includes(words), words, { timeout: 60000 });
const exchange = (from, to) => writeFileSync(file, readFileSync(file, 'utf8').replaceAll(from, to));

await page.goto(address + name);
await shown(old);
let loads = 0;
page.on('load', () => (loads += 1));
exchange(old, fresh);
await shown(fresh);
// It settles: the page that came is the one that the stream tells of.
await page.waitForTimeout(1500);
const settled = loads;

// The same machine under another name is another origin: what it may not read stays unread.
const elsewhere = await context.newPage();
await elsewhere.goto(address.replace('127.0.0.1', 'localhost'));
const stolen = await elsewhere.evaluate((index) => new Promise((told) => {
  const script = document.createElement('script');
  script.src = index;
  script.onload = () => told('read');
  script.onerror = () => told('kept');
  document.head.append(script);
}), address + 'search-part-1.js');

await browser.close();
console.log(JSON.stringify({ asked: [...asked].sort(), complaints, settled, stolen }));
