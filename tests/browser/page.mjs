// Opens the page of a plan in Chromium and holds it to what a printmaker needs of it.
//   node page.mjs [--chromium PATH] [--modules node_modules] [--long PAGE.html] [--demo PAGE.html]
//     PAGE.html...
// Prints one line a fault and ends with status 1 when there is any. Before that it spoils a page in
// six ways and fails when a check does not see it. How many sheets a --long page prints on is not
// judged; a --demo page takes three at most.
import { createRequire } from 'node:module';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const words = process.argv.slice(2);
const option = (name, otherwise) => {
  const at = words.indexOf(name);
  return at < 0 ? otherwise : words.splice(at, 2)[1];
};
const executablePath = option('--chromium', '/usr/bin/chromium');
const long = option('--long', '');
const demo = option('--demo', '');
const here = dirname(fileURLToPath(import.meta.url));
const modules = createRequire(resolve(option('--modules', join(here, 'node_modules')), 'index.js'));
const { chromium } = modules('playwright-core');
const axeSource = readFileSync(modules.resolve('axe-core/axe.min.js'), 'utf8');

const browser = await chromium.launch({
  executablePath,
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});

// What the page does in one setting of the browser; `look` reads it and returns faults.
async function within(file, settings, look) {
  const context = await browser.newContext({ offline: true, hasTouch: true, ...settings });
  const page = await context.newPage();
  const faults = [];
  const own = pathToFileURL(file).href;
  page.on('request', (r) => r.url() !== own && faults.push(`asks for ${r.url()}`));
  page.on('console', (m) => m.type() === 'error' && faults.push(`console: ${m.text()}`));
  page.on('pageerror', (e) => faults.push(`script error: ${e.message}`));
  await page.goto(own);
  faults.push(...(await look(page)));
  await context.close();
  return faults;
}

async function accessible(page) {
  await page.evaluate(axeSource);
  const result = await page.evaluate(() =>
    axe.run(document, { rules: { 'color-contrast-enhanced': { enabled: true } } }));
  return result.violations.map((v) =>
    `axe ${v.id} (${v.impact}), ${v.nodes.length} times, first ${v.nodes[0].html.slice(0, 120)}`);
}

const noSidewaysScroll = (page) => page.evaluate(() => {
  const { scrollWidth, clientWidth } = document.documentElement;
  return scrollWidth > clientWidth ? [`scrolls sideways: ${scrollWidth} px in ${clientWidth}`] : [];
});

const largeEnough = (page) => page.evaluate(() => {
  const faults = [];
  const targets = [...document.querySelectorAll('.tick label, nav a')];
  for (const t of targets) {
    const { width, height } = t.getBoundingClientRect();
    if (width < 64 || height < 64) faults.push(`target of ${width} x ${height} px: ${t.textContent}`);
  }
  const boxes = targets.map((t) => t.getBoundingClientRect());
  for (let i = 1; i < boxes.length; ++i) {
    const apart = Math.max(boxes[i].top - boxes[i - 1].bottom, boxes[i].left - boxes[i - 1].right);
    if (apart < 15.9) faults.push(`targets ${apart} px apart: ${targets[i].textContent}`);
  }
  for (const row of document.querySelectorAll('.steps tbody tr:not(.goal)')) {
    const { height } = row.getBoundingClientRect();
    if (height < 64) faults.push(`row of ${height} px: ${row.textContent}`);
  }
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    if (!walk.currentNode.data.trim() || parent.closest('svg, .vh')) continue;
    const size = parseFloat(getComputedStyle(parent).fontSize);
    if (size < 18) faults.push(`type of ${size} px: ${walk.currentNode.data}`);
  }
  for (const text of document.querySelectorAll('svg.chart text, svg.moisture text')) {
    const { height } = text.getBoundingClientRect();
    if (height < 11) faults.push(`${height} px high in a drawing: ${text.textContent}`);
  }
  return faults;
});

async function ticksByKeyboard(page) {
  const box = page.locator('input[type=checkbox]').first();
  await box.focus();
  await page.keyboard.press('Space');
  const faults = (await box.isChecked()) ? [] : ['Space does not tick the first box'];
  const outline = await box.evaluate((e) => getComputedStyle(e).outlineStyle);
  if (outline === 'none') faults.push('the focus cannot be seen');
  return faults;
}

async function prints(page) {
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const faults = await page.evaluate(() => {
    const style = (selector) => getComputedStyle(document.querySelector(selector));
    const expected = [['body', 'color', 'rgb(0, 0, 0)'], ['body', 'background-color', 'rgb(255, 255, 255)'],
      ['nav', 'display', 'none'], ['.steps thead', 'display', 'table-header-group'],
      ['.steps tbody tr', 'break-inside', 'avoid'], ['figure', 'break-inside', 'avoid'],
      ['.record tr', 'break-inside', 'avoid'], ['#now', 'display', 'none'], ['.steps td.real', 'display', 'table-cell']];
    return expected.filter(([where, what, value]) => style(where).getPropertyValue(what) !== value)
      .map(([where, what]) => `printed, ${where} has ${what} ${style(where).getPropertyValue(what)}`);
  });
  return faults;
}

async function fewSheets(page, file) {
  const faults = [];
  const rows = await page.locator('.steps tbody tr').count();
  for (const format of ['A4', 'Letter']) {
    const pdf = (await page.pdf({ format })).toString('latin1');
    const pages = (pdf.match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
    const most = file === resolve(demo) ? 3 : 2 + Math.ceil(rows / 40);
    if (pages < 2 || pages > most) faults.push(`${format}: ${pages} pages for ${rows} rows, at most ${most}`);
  }
  return faults;
}

// All that scripts could show beyond these is the clock.
const completeWithoutScripts = async (page) => {
  for (const part of ['.facts', '#ready', '#steps', '#day', '#pulls', '#after', '#record', 'svg.chart']) {
    if (!(await page.locator(part).isVisible())) return [`no answer without scripts: ${part}`];
  }
  if (await page.locator('#now').isVisible()) return ['a clock without scripts'];
  const times = await page.locator('.steps time').allTextContents();
  return times.length > 0 && times.every((t) => /^\d\d:\d\d$/.test(t)) ? [] : ['no steps without scripts'];
};

const desk = { viewport: { width: 1280, height: 900 } };
const at = (width) => ({ viewport: { width, height: 800 } });

async function check(file) {
  const faults = [];
  const run = async (name, settings, look) => {
    for (const f of await within(file, settings, look)) faults.push(`${name}: ${f}`);
  };
  if (statSync(file).size > 300000) faults.push('larger than 300 kB');
  await run('light', desk, accessible);
  await run('dark', { ...desk, colorScheme: 'dark' }, accessible);
  await run('forced colours', { ...desk, forcedColors: 'active' }, accessible);
  await run('phone', at(390), accessible);
  await run('no scripts', { ...at(390), javaScriptEnabled: false }, completeWithoutScripts);
  for (const width of [320, 360, 640, 768, 1024]) await run(`${width} px`, at(width), noSidewaysScroll);
  for (const width of [320, 820, 1280]) await run(`${width} px`, at(width), largeEnough);
  await run('keyboard', desk, ticksByKeyboard);
  await run('print', desk, prints);
  if (file !== resolve(long)) await run('print', desk, (page) => fewSheets(page, file));
  return faults;
}

// Each spoiling must be seen as the fault it is.
async function checksBite(file) {
  const folder = mkdtempSync(join(tmpdir(), 'dampline-page-'));
  const page = readFileSync(file, 'utf8');
  const style = (css) => page.replace('</style>', `${css}</style>`);
  const spoilings = [
    ['a picture from elsewhere', /asks for https:\/\/example\.org/, noSidewaysScroll,
      page.replace('</h1>', '</h1><img alt="" src="https://example.org/x.png">')],
    ['a wide block', /scrolls sideways/, noSidewaysScroll,
      page.replace('</h1>', '</h1><p style="width:3000px;max-width:none">wide</p>')],
    ['pale type', /axe color-contrast/, accessible, style('.cue{color:#aaa !important}')],
    ['small boxes', /target of/, largeEnough, style('.tick label{height:40px !important}')],
    ['two questions gone', /no answer without scripts/, completeWithoutScripts, page.replace('id="ready"', '')],
    ['small type', /type of 12 px/, largeEnough, style('.cue{font-size:12px !important}')],
  ];
  const blind = [];
  for (const [name, expected, look, html] of spoilings) {
    const spoiled = join(folder, 'spoiled.html');
    writeFileSync(spoiled, html);
    const faults = await within(spoiled, desk, look);
    if (!faults.some((f) => expected.test(f))) blind.push(`the checks do not see a page with ${name}`);
  }
  rmSync(folder, { recursive: true });
  return blind;
}

const files = words.concat(long || [], demo || []).map((w) => resolve(w));
if (files.length === 0) {
  console.error('usage: node page.mjs [--chromium PATH] [--modules node_modules] [--long PAGE.html] PAGE.html...');
  process.exit(2);
}
let bad = 0;
const tell = (where, faults) => {
  bad += faults.length;
  for (const f of faults.slice(0, 40)) console.log(`${where}: ${f}`);
  if (faults.length === 0) console.log(`${where}: good`);
};
tell('the checks', await checksBite(files[0]));
for (const file of files) tell(file, await check(file));
await browser.close();
process.exit(bad > 0 ? 1 : 0);
