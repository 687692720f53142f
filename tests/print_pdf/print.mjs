// Prints sheets in headless Chromium and measures them; writes JSON: for each file the sizes in
// points of the type that is worked from, and how far anything sticks out of the paper's width.
// Arguments: folder with node_modules, files; each PDF stands beside its file.
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, ...files] = process.argv.slice(2);
const { chromium } = createRequire(join(modules, 'node_modules', 'x.js'))('playwright-core');
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const told = {};
// As wide as A4 between the margins of a sheet: 180 mm at 96 dots an inch.
const page = await browser.newPage({ viewport: { width: 680, height: 1000 } });
await page.emulateMedia({ media: 'print' });
for (const file of files) {
  await page.goto(pathToFileURL(file).href);
  await page.evaluate(() => document.fonts.ready);
  told[file] = await page.evaluate(() => {
    const worked = document.querySelectorAll('.steps, .settings');
    const sizes = new Set();
    for (const part of worked) {
      for (const one of [part, ...part.querySelectorAll('*')]) {
        sizes.add(Math.round(parseFloat(getComputedStyle(one).fontSize) * 75) / 100);
      }
    }
    const out = document.documentElement.scrollWidth - document.documentElement.clientWidth;
    return { sizes: [...sizes].sort((a, b) => a - b), out };
  });
  await page.pdf({ path: file.replace(/html$/, 'pdf'), preferCSSPageSize: true });
}
await browser.close();
console.log(JSON.stringify(told));
