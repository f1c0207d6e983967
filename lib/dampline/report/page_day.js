'use strict';
// The day by the wall clock: what is done, what is to be done now, how late it is. Nothing here
// touches the page. Times are milliseconds since 1970 and are compared with Date.now() anew each
// time, so that a tablet that slept loses nothing.
//
// All that ever happens is a list of acts, each of which Undo takes back:
//   {act: 'done', id, from, to}   a step, with its real times
//   {act: 'until', to}            all that was to be over by then is done, as planned
//   {act: 'late', by, held}       what is left comes so much later; steps held by then only end so
//   {act: 'moved', by}            rehearsal: the whole day, paper and all, is moved
const MINUTE = 60000;

function makeDay(plan, acts) {
  let moved = 0;
  let late = 0;
  const done = new Map();
  const held = new Map();
  const at = (time) => time + moved;  // as planned, in a rehearsal on the day it is rehearsed
  const start = (step) => at(step.from) + late;
  const end = (step) => at(step.to) + late;
  const begins = (step) => start(step) - (held.get(step.id) ?? 0);
  for (const a of acts) {  // in order: being late later on moves nothing that was done
    if (a.act === 'moved') moved += a.by;
    if (a.act === 'late') {
      late += a.by;
      for (const id of a.held ?? []) held.set(id, (held.get(id) ?? 0) + a.by);
    }
    if (a.act === 'done') done.set(a.id, a);
    if (a.act !== 'until') continue;
    for (const s of plan.steps) {
      if (!done.has(s.id) && end(s) <= a.to) done.set(s.id, { id: s.id, from: start(s), to: end(s) });
    }
  }
  const people = [...new Set(plan.steps.flatMap((s) => s.who))];
  const alone = (step) => step.who.length === 0;

  // When the hands that a step needs were last let go.
  const free = (step) => Math.max(-Infinity, ...plan.steps
    .filter((s) => done.has(s.id) && s.who.some((w) => step.who.includes(w)))
    .map((s) => done.get(s.id).to));

  // What goes on by itself begins when its sheets are laid there, and is over when the next step
  // with them is begun; without sheets (a hot plate warming) when its time is up.
  const shares = (a, b) => a !== b && a.sheets.some((n) => b.sheets.includes(n));
  function begun(step) {
    if (!alone(step)) return Math.max(begins(step), free(step));
    const before = plan.steps.filter((s) => s.from < step.from && done.has(s.id) && shares(s, step))
      .map((s) => done.get(s.id).to);
    return before.length > 0 ? Math.max(...before) : begins(step);
  }
  function selfDone(step, now) {
    if (!alone(step)) return null;
    const from = begun(step);
    const next = plan.steps.find((s) => s.from >= step.to && done.has(s.id) && shares(s, step));
    if (next) return { from: Math.min(from, done.get(next.id).from), to: done.get(next.id).from };
    const to = from + (step.to - step.from);
    return step.sheets.length === 0 && now >= to ? { from, to } : null;
  }
  const isDone = (step, now) => done.has(step.id) || selfDone(step, now) !== null;

  // A step in hand: begun when the hands were free, not before it was planned.
  function current(step, now) {
    const from = begun(step);
    const to = Math.max(from + (step.to - step.from), held.has(step.id) ? end(step) : 0);
    const phase = now < from ? 'waits' : now < to ? 'goes' : 'over';
    return { step, from, to, phase };
  }
  const left = (who, now) => plan.steps.filter((s) => s.who.includes(who) && !isDone(s, now));

  return {
    moved, late, people, done, start, begins, at, alone, isDone, current,
    // One entry a person: the step in hand and the one after it.
    hands: (now) => people.map((who) => {
      const [first, next] = left(who, now);
      return { who, now: first && current(first, now), next };
    }),
    // What goes on by itself and is watched, once its sheets are where it wants them.
    byItself: (now) => plan.steps.filter((s) => alone(s) && begun(s) <= now && !isDone(s, now) &&
      plan.steps.every((b) => b.from >= s.from || !shares(s, b) || done.has(b.id)))
      .map((s) => current(s, now)),
    // Nothing was ticked for a while: how many steps were to be over by now.
    missed: (now) => plan.steps.filter((s) => !alone(s) && end(s) <= now && !done.has(s.id)).length,
    // How much later than on the page the steps in hand will end.
    behind(now) {
      return Math.max(0, ...people.map((who) => {
        const first = left(who, now)[0];
        if (!first) return 0;
        const c = current(first, now);
        return Math.max(c.to, c.phase === 'over' ? now : 0) - end(first);
      }));
    },
    doneAct(step, now) {
      // Done before it was to begin: taken to have lasted as planned, once the hands were free.
      const planned = now < begins(step) ? now - (step.to - step.from) : begins(step);
      const from = alone(step) ? begun(step) : Math.max(planned, free(step));
      return { act: 'done', id: step.id, from: Math.min(from, now), to: now };
    },
    // Sheets whose window closes before their pull, when what is left comes `by` later still.
    atRisk: (by) => plan.pulls.filter((p) => !done.has(p.step) && at(p.at) + late + by > at(p.until)),
    // A sheet among fingers: its next pull, or that it has been printed.
    sheetNow(sheet, now) {
      const pulls = plan.pulls.filter((p) => p.sheet === sheet);
      const next = pulls.find((p) => !done.has(p.step));
      if (!next) return 'printed';
      if (now < at(next.from)) return 'not yet';
      return now <= at(next.until) ? 'printable by the plan' : 'too dry by the plan';
    },
    // Real times of everything over by now, in the plan's own day, for the list.
    record(now) {
      const real = (s) => done.get(s.id) ?? (begun(s) <= now ? selfDone(s, now) : null);
      return plan.steps.filter((s) => !s.pause && real(s)).map((s) => {
        const r = real(s);
        return { step: s, from: r.from - moved, to: r.to - moved };
      }).sort((a, b) => a.from - b.from);
    },
  };
}

// Minutes east of UTC in the studio at a time.
function offsetAt(plan, time) {
  let offset = plan.offsets[0][1];
  for (const [from, minutes] of plan.offsets) if (time >= from) offset = minutes;
  return offset;
}
// "10:41" on the studio's clock, down to the minute.
function clockText(plan, time, seconds = false) {
  const local = new Date(time + offsetAt(plan, time) * MINUTE).toISOString();
  return local.slice(11, seconds ? 19 : 16);
}
// "8 min", "1 h 05 min"; under a minute "less than a minute".
function lengthText(length) {
  const minutes = Math.round(length / MINUTE);
  if (minutes < 1) return 'less than a minute';
  if (minutes < 60) return `${minutes} min`;
  if (minutes >= 48 * 60) return `${Math.round(minutes / 60 / 24)} days`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;
}
