// Types values into live pages of the site in headless Chromium and tells what each page then shows,
// as JSON. Arguments: folder with node_modules, folder of the site. Standard input: a list of
// {page, rows: [{field: text}]}.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, site] = process.argv.slice(2);
const require = createRequire(join(modules, 'node_modules', 'x.js'));
const { chromium } = require('playwright-core');
const home = pathToFileURL(site).href + '/';
const visits = JSON.parse(readFileSync(0, 'utf8'));

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});

// Runs in the page: fills the form, waits for its answer, reads what stands there.
async function typeAll(rows) {
  const form = document.querySelector('form.live');
  const said = form.querySelector('[role=status]');
  const fields = [...form.querySelectorAll('input, select')];
  // A blank that does not break is a matter of the line, not of what is said.
  const text = (element) => (element?.textContent.trim() ?? '').replaceAll('\u00a0', ' ');
  const texts = (all) => [...all].map(text);
  const html = () => Object.fromEntries([...document.querySelectorAll('.now')].map((part) => [part.id, part.innerHTML]));
  const under = (head) => {
    const found = [];
    const heads = [...document.querySelectorAll('.now h2')];
    let next = heads.find((one) => one.textContent === head)?.nextElementSibling;
    for (; next && next.tagName !== 'H2'; next = next.nextElementSibling) found.push(next);
    return found;
  };
  const rowsOf = (head) => Object.fromEntries(
    under(head).flatMap((one) => [...one.querySelectorAll('tbody tr')])
      .map((row) => [text(row.children[0]), text(row.children[2])]));
  const itemsOf = (head) => under(head).flatMap((one) => texts(one.querySelectorAll('li')));
  const setUps = () => [...document.querySelectorAll('.now h2[id^=set-up-]')].map((head) => {
    const all = under(head.textContent);
    const find = (what) => all.flatMap((one) => one.matches(what) ? [one] : [...one.querySelectorAll(what)]);
    return {
      title: text(head).replace(/^\d+\. /, ''),
      settings: find('.settings li')
        .map((one) => [one.querySelector('.label').firstChild.textContent.trim(), text(one.querySelector('.value'))])
        .filter(([label]) => !label.startsWith('Cutter: ')),
      acts: find('.act').map(text),
      limits: find('.limits').map((one) => texts(one.querySelectorAll('dd'))),
    };
  });
  const facts = () => Object.fromEntries(
    [...document.querySelectorAll('.now .facts div')].map((one) => [text(one.children[0]), text(one.children[1])]));
  const given = () => ({ ...rowsOf('The worked example'), ...rowsOf('As typed on this page') });
  const seen = [];
  const began = html();
  for (const row of rows) {
    for (const field of fields) {
      if (field.name in row) field.value = row[field.name];
      else if (field.name !== 'units') field.value = '';
    }
    said.textContent = '';
    const start = performance.now();
    form.requestSubmit();
    while (!said.textContent) await new Promise((done) => setTimeout(done));
    const took = performance.now() - start;
    seen.push({
      took,
      said: said.textContent,
      given: given(),
      results: rowsOf('Results'),
      beware: itemsOf('Beware'),
      order: itemsOf('In this order'),
      rules: texts(document.querySelectorAll('.now .rule')),
      facts: facts(),
      setUps: setUps(),
      drawn: document.querySelectorAll('.now svg').length,
      faults: Object.fromEntries(fields.filter((one) => one.getAttribute('aria-invalid'))
        .map((one) => [one.name, text(document.getElementById(`${one.id}-fault`))])),
      broken: fields[0].disabled,
      html: row.html ? html() : {},
    });
  }
  form.reset();
  return { seen, began, ended: html() };
}

async function visit(context, { page: name, rows }) {
  const page = await context.newPage();
  const wrong = [];
  page.on('console', (one) => ['error', 'warning'].includes(one.type()) && wrong.push(`console: ${one.text()}`));
  page.on('pageerror', (error) => wrong.push(`script: ${error}`));
  page.on('request', (one) => one.url().startsWith(home) || wrong.push(`asks for ${one.url()}`));
  page.on('requestfailed', (one) => wrong.push(`does not get ${one.url()}`));
  await page.goto(home + name);
  const told = await page.evaluate(typeAll, rows);
  await page.close();
  return { page: name, wrong, ...told };
}

const context = await browser.newContext();
const answers = new Array(visits.length);
let next = 0;
// Two pages at once, since two cores are common.
const walk = async () => {
  for (let at = next++; at < visits.length; at = next++) answers[at] = await visit(context, visits[at]);
};
await Promise.all([walk(), walk()]);
await browser.close();
process.stdout.write(JSON.stringify(answers));
