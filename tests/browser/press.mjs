// The page by the press: its clock, undo, being late, sleep and reload, what was done, the alarm.
//   node press.mjs [--chromium PATH] [--modules node_modules] DEMO.html OUT-FOLDER
// DEMO is the page of data/sessions/salt-marsh.toml. What the page exports is left in OUT-FOLDER
// for the program to read. Prints one line a fault and ends with status 1 when there is any.
import { createRequire } from 'node:module';
import { writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const words = process.argv.slice(2);
const option = (name, otherwise) => {
  const at = words.indexOf(name);
  return at < 0 ? otherwise : words.splice(at, 2)[1];
};
const executablePath = option('--chromium', '/usr/bin/chromium');
const here = dirname(fileURLToPath(import.meta.url));
const modules = createRequire(resolve(option('--modules', join(here, 'node_modules')), 'index.js'));
const { chromium } = modules('playwright-core');
const [file, folder] = words;
const browser = await chromium.launch({
  executablePath,
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const morning = '2026-03-14T09:30:00Z';
const noon = '2026-03-14T12:40:30Z';
let bad = 0;

// A page at a moment, its clock held still; `look` moves the clock itself.
async function at(time, name, look, settings = {}) {
  const context = await browser.newContext({ offline: true, hasTouch: true,
    viewport: { width: 820, height: 1100 }, timezoneId: 'Asia/Tokyo', ...settings });
  const page = await context.newPage();
  const faults = [];
  page.on('pageerror', (e) => faults.push(`script error: ${e.message}`));
  page.on('console', (m) => m.type() === 'error' && faults.push(`console: ${m.text()}`));
  page.on('request', (r) => !/^(file|blob):/.test(r.url()) && faults.push(`asks for ${r.url()}`));
  if (settings.before) await page.addInitScript(settings.before);
  await page.clock.install({ time: new Date(Date.parse(time) - 1000) });
  await page.clock.pauseAt(new Date(time));
  await page.goto(pathToFileURL(resolve(file)).href);
  const is = async (what, selector, expected) => {
    const text = await page.locator(selector).first().textContent();
    if (!expected.test(text)) faults.push(`${what}: "${text}" is not ${expected}`);
  };
  const holds = (what, truth) => truth || faults.push(what);
  try {
    await look(page, is, holds);
  } catch (e) {
    faults.push(`${e.message}`);
  }
  await context.close();
  bad += faults.length;
  for (const f of faults) console.log(`${name}: ${f}`);
  if (faults.length === 0) console.log(`${name}: good`);
}
const done = '#hands button.done';

await at(morning, 'the step in hand, done and undone', async (page, is, holds) => {
  await is('the studio\'s clock, whatever the device\'s zone', '#clock', /^09:30:00$/);
  await is('the step', '.hand .what', /lay out/);
  await is('what is left', '.hand .left', /^15 min left$/);
  await page.clock.runFor(12 * 60000);
  await is('the clock', '#clock', /^09:42:00$/);
  await page.click(done);
  await is('told', '#told', /^Done at 09:42: .*lay out/);
  await is('the next', '.hand .what', /tear/);
  await is('it is early', '.hand .left', /^begins in 3 min$/);
  await is('the real time stands in the list', 'tr[data-step=lay-out] td.real', /^09:30 to 09:42$/);
  holds('the box is ticked', await page.locator('tr[data-step=lay-out] input').isChecked());
  await page.click('#undo');
  await is('back', '.hand .what', /lay out/);
  holds('the box is empty again', !(await page.locator('tr[data-step=lay-out] input').isChecked()));
  await page.click('tr[data-step=lay-out] label');
  await is('a box ticked is done too', '.hand .what', /tear/);
  await page.click('tr[data-step=lay-out] label');
  await is('and unticked is not', '.hand .what', /lay out/);
});

await at(morning, 'sleep and reload', async (page, is) => {
  await page.click(done);
  await page.clock.fastForward('00:30:00');  // asleep: no tick ran
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  await is('awake, the clock is right', '#clock', /^10:00:00$/);
  await is('overdue, in words', '.hand .left', /^over by 10 min$/);
  await page.reload();
  await is('kept', '.hand .what', /tear/);
  await is('the clock goes on', '#clock', /^10:00:00$/);
});

await at(morning, 'a browser that keeps nothing', async (page, is) => {
  await page.click(done);
  await is('says so', '#told', /keeps nothing/);
  await is('and works', '.hand .what', /tear/);
}, { before: () => { Object.defineProperty(window, 'localStorage', { get() { throw new Error('refused'); } }); } });

await at(noon, 'late', async (page, is, holds) => {
  await is('offers to catch up', '#as-planned', /went as planned/);
  await page.click('#as-planned');
  holds('caught up', !(await page.locator('#catch-up').isVisible()));
  const cells = () => page.locator('tr:not(.goal):not(.in-hand):has(input:not(:checked)) time').allTextContents();
  const before = await cells();
  await page.click('#late-open');
  await is('no sheet is at risk', '#late-risk', /^Every sheet still meets/);
  await page.click('[data-late="30"]');
  const after = await cells();
  const minutes = (t) => Number(t.slice(0, 2)) * 60 + Number(t.slice(3));
  holds('what is left comes 30 minutes later',
    before.length === after.length && before.every((t, i) => minutes(after[i]) - minutes(t) === 30));
  await is('the step in hand ends so much later', '.hand .when', /^12:31 to 13:13$/);
  await is('done stays', 'tr[data-step=lay-out] time', /^09:30$/);
  for (let i = 0; i < 2; ++i) await page.click('[data-late="30"]');
  await is('beyond the hour to be out', '#late-finish', /18:20: 50 min after you must be out/);
  await page.click('#undo');
  await is('undone', '#late-finish', /17:50: 20 min after/);
  await is('only a plan plans', '#late-panel', /only dampline late plans anew/);
});

// The demo's sheets keep for days under cover: a window is made to close early.
await at(noon, 'sheets at risk', async (page, is) => {
  await page.click('#as-planned');
  await page.click('#late-open');
  await page.click('[data-late="30"]');
  await is('by name and time', '#late-risk', /^Sheet 5 \(print 5, tone\): pull at 16:32, printable until 16:10\./);
  await is('told in the line above too', '#state', /2 pulls at risk/);
}, { before: () => {
  const parse = JSON.parse;
  JSON.parse = (text) => {
    const value = parse(text);
    value?.pulls?.forEach((p) => { if (p.sheet === 5) p.until = Date.parse('2026-03-14T16:10:00Z'); });
    return value;
  };
} });

await at(noon, 'what was done', async (page, is, holds) => {
  await page.click('#as-planned');
  await page.click('#done-open');
  const text = await page.locator('#done-text').inputValue();
  const lines = text.trim().split('\n').filter((l) => !l.startsWith('#'));
  holds(`a line a step: ${text}`, lines.length > 20 && lines.slice(0, -1).every((l) => /^\S+ \d\d:\d\d \d\d:\d\d$/.test(l)));
  holds('last the step in hand, begun', /^ink-2-tone 12:31$/.test(lines[lines.length - 1]));
  holds('no break among them', !/^break/m.test(text));
  await is('the command', '#done-late', /^dampline late your-day.toml --at 12:40 --done @done.txt$/);
  const [saved] = await Promise.all([page.waitForEvent('download'), page.click('#done-save')]);
  holds('saved as done.txt', saved.suggestedFilename() === 'done.txt');
  writeFileSync(join(folder, 'done.txt'), text);
});

await at('2026-03-14T10:00:00Z', 'alarm', async (page, is, holds) => {
  await page.click('#as-planned');
  await page.click('#alarm');
  await is('on', '#alarm', /on$/);
  await page.clock.runFor(8 * 60000);  // the soak is over at 10:06
  await is('in words', '#told', /Time is up: soaking/);
  holds('by a frame', await page.locator('#now.rung').count() === 1);
  holds('and by sound', await page.evaluate(() => window.tones) > 3);
  await page.click('#alarm');
  await is('off', '#alarm', /off$/);
}, { before: () => {
  window.tones = 0;
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (...a) { window.tones += 1; return start.apply(this, a); };
} });

await at('2026-11-29T20:00:00Z', 'another day', async (page, is, holds) => {
  await is('says when it was', '#state', /This day was Saturday 14 March 2026/);
  await page.click('#begin-now');
  await is('a rehearsal', '#state', /rehearsal/);
  await is('begins', '.hand .left', /^15 min left$/);
  await page.click('#undo');
  holds('taken back', await page.locator('#begin-now').isVisible());
});

for (const width of [320, 390, 820, 1280]) {
  await at(noon, `touched with a knuckle, ${width} px`, async (page, is, holds) => {
    await page.click('#late-open');
    await page.click('#done-open');
    const { small, near, wide } = await page.evaluate(() => {
      const boxes = [...document.querySelectorAll('button')].map((b) => b.getBoundingClientRect())
        .filter((b) => b.width > 0);
      const apart = (a, b) => Math.max(a.left - b.right, b.left - a.right, a.top - b.bottom, b.top - a.bottom);
      return { small: boxes.filter((b) => b.width < 64 || b.height < 64).length,
        near: boxes.filter((a, i) => boxes.some((b, j) => j > i && apart(a, b) < 15.9)).length,
        wide: document.documentElement.scrollWidth - document.documentElement.clientWidth };
    });
    holds(`${small} buttons under 64 px`, small === 0);
    holds(`${near} buttons nearer than 16 px`, near === 0);
    holds(`scrolls ${wide} px sideways`, wide <= 0);
    const clock = await page.evaluate(() => parseFloat(getComputedStyle(document.getElementById('clock')).fontSize));
    holds(`clock of ${clock} px`, clock >= 64);
  }, { viewport: { width, height: 900 } });
}
await browser.close();
process.exit(bad > 0 ? 1 : 0);
