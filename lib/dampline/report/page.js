// What the page shows of the day. Text goes in by textContent only.
{
  const $ = (id) => document.getElementById(id);
  const plan = JSON.parse($('plan-data').textContent);
  const key = `dampline ${plan.id}`;  // another plan of the same day begins anew
  let acts = [];
  let kept = true;  // a browser may refuse to keep anything; the page then works until it is closed
  try { acts = JSON.parse(localStorage.getItem(key)) ?? []; } catch { kept = false; }
  const ids = new Set(plan.steps.map((s) => s.id));
  const good = (a) => (a?.act === 'done' && ids.has(a.id) && Number.isFinite(a.from) &&
    Number.isFinite(a.to)) || (['late', 'moved'].includes(a?.act) && Number.isFinite(a.by) && Array.isArray(a.held ?? [])) ||
    (a?.act === 'until' && Number.isFinite(a.to));
  acts = Array.isArray(acts) ? acts.filter(good) : [];
  let day = makeDay(plan, acts);
  const rows = new Map([...document.querySelectorAll('tr[data-step]')].map((r) => [r.dataset.step, r]));

  const put = (element, text) => { if (element.textContent !== text) element.textContent = text; };
  // In a rehearsal the clock is the device's own.
  const clock = (time, seconds) => (day.moved === 0 ? clockText(plan, time, seconds)
    : new Date(time).toTimeString().slice(0, seconds ? 8 : 5));
  const tell = (text) => put($('told'), text);
  const stepText = (step) => step.what;

  function keep(next, words) {
    acts = next;
    day = makeDay(plan, acts);
    try { localStorage.setItem(key, JSON.stringify(acts)); } catch { kept = false; }
    tell(words + (kept ? '' : ' (this browser keeps nothing: do not close the page)'));
    show();
  }
  function markDone(step) {
    const now = Date.now();
    keep([...acts, day.doneAct(step, now)], `Done at ${clock(now)}: ${stepText(step)}.`);
  }
  function undo() {
    const last = acts[acts.length - 1];
    if (!last) return tell('Nothing to take back.');
    const step = plan.steps.find((s) => s.id === last.id);
    const minutes = lengthText(Math.abs(last.by ?? 0));
    const words = { done: () => `Taken back: ${stepText(step)}.`,
      until: () => 'Taken back: all as planned.', late: () => `Taken back: ${minutes} later.`, moved: () => 'Rehearsal taken back.' };
    return keep(acts.slice(0, -1), words[last.act]());
  }
  // A box unticked. Of a stretch taken as planned the other steps stay done.
  function untick(step) {
    const others = [...day.done.values()].filter((d) => d.id !== step.id)
      .map(({ id, from, to }) => ({ act: 'done', id, from, to })).sort((a, b) => a.to - b.to);
    const rest = acts.filter((a) => a.act === 'late' || a.act === 'moved');
    keep([...rest, ...others], `Taken back: ${stepText(step)}.`);
  }
  function beLate(by) {
    const now = Date.now();
    const held = [...day.hands(now).map((h) => h.now), ...day.byItself(now)]
      .filter((c) => c && c.phase !== 'waits').map((c) => c.step.id);
    if (by >= MINUTE) keep([...acts, { act: 'late', by, held }], `The rest comes ${lengthText(by)} later.`);
  }

  // --- the alarm: sound once a tap has allowed it, and always a frame and words
  let audio = null;
  let awake = null;
  const rung = new Set();
  function sound() {
    if (!audio) return;
    [0, 0.35, 0.7].forEach((after, i) => {
      const tone = audio.createOscillator();
      const loud = audio.createGain();
      tone.frequency.value = i === 1 ? 660 : 880;
      loud.gain.value = 0.25;
      tone.connect(loud).connect(audio.destination);
      tone.start(audio.currentTime + after);
      tone.stop(audio.currentTime + after + 0.2);
    });
    navigator.vibrate?.([200, 150, 200]);
  }
  async function stayAwake() {
    try { awake = audio ? await navigator.wakeLock?.request('screen') : null; } catch { awake = null; }
  }
  function switchAlarm() {
    if (audio) {
      audio.close();
      awake?.release();
      audio = awake = null;
    } else {
      try { audio = new AudioContext(); } catch { return tell('This browser makes no sound.'); }
      sound();
      stayAwake();
    }
    put($('alarm'), audio ? 'Alarm: on' : 'Alarm: off');
    $('alarm').setAttribute('aria-pressed', String(audio !== null));
    return tell(audio ? 'Alarm on; the screen is asked to stay lit.' : 'Alarm off.');
  }
  // What is called out: soaks, rests and breaks that are over, and work that begins after a wait.
  function events(now) {
    const all = [];
    for (const c of [...day.byItself(now), ...day.hands(now).map((h) => h.now).filter(Boolean)]) {
      const { step } = c;
      if (c.phase === 'over' && (day.alone(step) || step.pause)) {
        all.push([`over ${step.id}`, `Time is up: ${stepText(step)}.`]);
      }
      if (c.phase !== 'waits' && waited.has(step.id)) all.push([`begin ${step.id}`, `Begin: ${stepText(step)}.`]);
      if (c.phase === 'waits') waited.add(step.id);
    }
    return all;
  }
  const waited = new Set();
  function ring(now, silent) {
    const fresh = events(now).filter(([name]) => !rung.has(name));
    fresh.forEach(([name]) => rung.add(name));
    if (silent || fresh.length === 0) return;
    tell(fresh.map(([, words]) => words).join(' '));
    $('now').classList.add('rung');
    sound();
  }

  // --- what is shown
  function make(tag, kind, text) {
    const element = document.createElement(tag);
    if (kind) element.className = kind;
    if (text) element.textContent = text;
    return element;
  }
  const phases = {
    waits: (c, now) => `begins in ${lengthText(c.from - now)}`,
    goes: (c, now) => `${lengthText(c.to - now)} left`,
    over: (c, now) => `over by ${lengthText(now - c.to)}`,
  };
  function card(name, c, next) {
    const box = make('div', 'hand');
    box.append(make('h3', '', name));
    if (!c) {
      box.append(make('p', 'what', 'Nothing more today.'));
      return box;
    }
    box.append(make('p', 'what', stepText(c.step)));
    if (c.step.cue) box.append(make('p', 'cue', c.step.cue));
    box.append(make('p', 'when', `${clock(c.from)} to ${clock(c.to)}`), make('p', 'left'));
    const button = make('button', 'done', c.step.pause ? 'Back at work' : 'Done');
    button.type = 'button';
    button.dataset.done = c.step.id;
    button.setAttribute('aria-label', `${button.textContent}: ${stepText(c.step)}`);
    box.append(button);
    if (next) box.append(make('p', 'next', `Next ${clock(day.start(next))}: ${stepText(next)}`));
    return box;
  }
  let shown = '';  // cards are built anew only when they change: focus and screen readers stay put
  function showHands(now) {
    const hands = day.hands(now).map((h) => [day.people.length > 1 ? h.who : 'In hand', h.now, h.next]);
    const alone = day.byItself(now).map((c) => ['By itself', c, undefined]);
    const all = [...hands, ...alone];
    const mark = JSON.stringify(all.map(([n, c, x]) => [n, c?.step.id, c?.from, x?.id, day.late]));
    if (mark !== shown) {
      const held = document.activeElement?.closest?.('.hand h3, .hand button') ? true : false;
      $('hands').replaceChildren(...all.map((a) => card(...a)));
      if (held) $('hands').querySelector('button')?.focus();
      shown = mark;
    }
    all.forEach(([, c], i) => {
      const box = $('hands').children[i];
      box.dataset.phase = c?.phase ?? 'rest';
      if (c) put(box.querySelector('.left'), phases[c.phase](c, now));
    });
  }
  function showRow(step, now) {
    const row = rows.get(step.id);
    if (!row) return;
    const real = day.done.get(step.id);
    const box = row.querySelector('input');
    if (box.checked !== Boolean(real)) box.checked = Boolean(real);
    put(row.querySelector('time'), clock(real ? day.at(step.from) : day.begins(step)));
    row.classList.toggle('moved', day.late !== 0 && !real);
    row.classList.toggle('in-hand', !real && !day.isDone(step, now) && nowIds.has(step.id));
    put(row.querySelector('.real'), real ? `${clock(real.from)} to ${clock(real.to)}` : '');
  }
  let nowIds = new Set();
  function showRisk(now) {
    const behind = day.behind(now);
    put($('late-behind'), behind < MINUTE ? 'By the steps ticked you are on time.'
      : `By the steps ticked you are ${lengthText(behind)} behind.`);
    put($('late-rest'), behind < MINUTE ? 'Move the rest' : `Move the rest by ${lengthText(behind)}`);
    $('late-rest').disabled = behind < MINUTE;
    const finish = day.at(plan.finish) + day.late + behind;
    const over = finish - day.at(plan.until);
    put($('late-finish'), `Cleaned up at about ${clock(finish)}: ` +
      (over > 0 ? `${lengthText(over)} after you must be out.` : `${lengthText(-over)} in hand.`));
    const risk = day.atRisk(behind).map((p) => `Sheet ${p.sheet} (${p.name}): pull at ` +
      `${clock(day.at(p.at) + day.late + behind)}, printable until ${clock(day.at(p.until))}.`);
    const lines = risk.length > 0 ? risk : ['Every sheet still meets its pull while it is printable.'];
    const list = $('late-risk');
    if ([...list.children].map((l) => l.textContent).join() !== lines.join()) {
      list.replaceChildren(...lines.map((l) => make('li', risk.length > 0 ? 'risk' : '', l)));
    }
    return { behind, risk: risk.length };
  }
  function showState(now) {
    const first = day.at(Math.min(...plan.steps.map((s) => s.from)));
    const last = day.at(plan.until) + 6 * 60 * MINUTE;
    const elsewhen = acts.length === 0 && (now < first - 12 * 60 * MINUTE || now > last);
    $('rehearse').hidden = !elsewhen;
    $('hands').hidden = elsewhen && now > last;
    $('catch-up').hidden = elsewhen || day.missed(now) < 3;
    document.documentElement.classList.toggle('on-day', !elsewhen);
    const { behind, risk } = showRisk(now);
    const words = [];
    if (day.moved !== 0) words.push('A rehearsal: all times are moved to now.');
    if (elsewhen) {
      words.push(now > last ? `This day was ${plan.date}.`
        : `The day is ${plan.date}, in ${lengthText(first - now)}.`);
    }
    if (day.late > 0) words.push(`The rest is moved by ${lengthText(day.late)}.`);
    if (!elsewhen && behind >= MINUTE) words.push(`${lengthText(behind)} behind.`);
    if (!elsewhen && risk > 0) words.push(`${risk} ${risk === 1 ? 'pull' : 'pulls'} at risk: see I am late.`);
    put($('state'), words.join(' '));
  }
  function listText(now) {
    const word = (time) => clockText(plan, time);
    const lines = [`# what was done: ${plan.title.replace(/#/g, '')}`, `# day ${plan.day}` +
      (plan.zone ? `, times of ${plan.zone}` : '') + (day.moved ? ', a rehearsal' : '')];
    for (const r of day.record(now)) lines.push(`${r.step.id} ${word(r.from)} ${word(r.to)}`);
    // In hand: begun, not done.
    for (const c of [...day.hands(now).map((h) => h.now), ...day.byItself(now)]) {
      if (!c || c.phase === 'waits' || c.step.pause) continue;
      const line = `${c.step.id} ${word(c.from - day.moved)}`;
      if (!lines.includes(line)) lines.push(line);
    }
    return `${lines.join('\n')}\n`;
  }
  function showDone(now) {
    if ($('done-panel').hidden) return;
    const text = listText(now);
    if ($('done-text').value !== text) $('done-text').value = text;
    put($('done-late'), `dampline late your-day.toml --at ${clockText(plan, now - day.moved)} --done @done.txt`);
  }
  function show() {
    const now = Date.now();
    put($('clock'), clock(now, true));
    showState(now);
    if (!$('hands').hidden) showHands(now);
    nowIds = new Set([...day.hands(now).map((h) => h.now), ...day.byItself(now)]
      .filter((c) => c && c.phase !== 'waits').map((c) => c.step.id));
    plan.steps.forEach((s) => showRow(s, now));
    document.querySelectorAll('tr[data-sheet]').forEach((row) =>
      put(row.querySelector('.by-now'), day.sheetNow(Number(row.dataset.sheet), now)));
    showDone(now);
    return now;
  }

  // --- what is touched
  const opens = (button, panel) => button.addEventListener('click', () => {
    panel.hidden = !panel.hidden;
    button.setAttribute('aria-expanded', String(!panel.hidden));
    show();
  });
  opens($('late-open'), $('late-panel'));
  opens($('done-open'), $('done-panel'));
  $('undo').addEventListener('click', undo);
  $('alarm').addEventListener('click', switchAlarm);
  $('late-rest').addEventListener('click', () => beLate(day.behind(Date.now())));
  $('begin-now').addEventListener('click', () => {
    const by = Date.now() - Math.min(...plan.steps.map((s) => s.from));
    keep([...acts, { act: 'moved', by }], 'The day begins now.');
  });
  $('as-planned').addEventListener('click', () => {
    keep([...acts, { act: 'until', to: Date.now() }], 'All that was to be over is ticked, as planned.');
  });
  document.addEventListener('click', (event) => {
    $('now').classList.remove('rung');
    const { done, late } = event.target.dataset ?? {};
    if (done) markDone(plan.steps.find((s) => s.id === done));
    if (late) beLate(Number(late) * MINUTE);
  });
  document.addEventListener('change', (event) => {
    const row = event.target.closest('tr[data-step]');
    const step = row && plan.steps.find((s) => s.id === row.dataset.step);
    if (!step) return;
    if (event.target.checked) markDone(step);
    else untick(step);
  });
  $('done-copy').addEventListener('click', async () => {
    $('done-text').select();
    try { await navigator.clipboard.writeText($('done-text').value); tell('Copied.'); } catch {
      tell(document.execCommand('copy') ? 'Copied.' : 'Marked: copy it by hand.');
    }
  });
  $('done-save').addEventListener('click', () => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([listText(Date.now())], { type: 'text/plain' }));
    link.download = 'done.txt';
    link.click();
    URL.revokeObjectURL(link.href);
    tell('Saved as done.txt.');
  });

  // --- the clock
  document.documentElement.classList.add('live');
  $('now').hidden = false;
  ring(show(), true);
  const tick = () => ring(show(), false);
  setInterval(tick, 1000);
  const woken = () => { if (!document.hidden) { tick(); stayAwake(); } };
  document.addEventListener('visibilitychange', woken);
  window.addEventListener('pageshow', woken);
}
