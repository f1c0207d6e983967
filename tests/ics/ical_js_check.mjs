// Reads a calendar with ical.js and holds it to the plan it was made with, as JSON:
//   node ical_js_check.mjs NODE_MODULES CALENDAR PLAN
// The moments must be those of the plan, and the wall clock that this runtime's own time zone data
// gives for them must be the one the plan printed: on the day the clocks change too.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [modules, calendar, plan] = process.argv.slice(2);
const { default: ICAL } = await import(pathToFileURL(`${modules}/ical.js/dist/ical.js`));
const told = JSON.parse(readFileSync(plan, "utf8"));
const root = new ICAL.Component(ICAL.parse(readFileSync(calendar, "utf8")));
const events = root.getAllSubcomponents("vevent").map((e) => new ICAL.Event(e));

let faults = 0;
const fault = (what) => {
  console.error(`ical.js: ${what}`);
  faults += 1;
};
const byKey = new Map(events.map((e) => [e.uid.split(".")[0], e]));
if (byKey.size !== events.length) fault("two events with one id");

const wall = new Intl.DateTimeFormat("sv-SE", {
  timeZone: told.zone, dateStyle: "short", timeStyle: "medium",
});
const holds = (key, at, exactly = true) => {
  const event = byKey.get(key);
  if (!event) return fault(`no event ${key}`);
  const start = event.startDate.toJSDate();
  if (exactly && start.getTime() !== new Date(at).getTime()) {
    fault(`${key} starts ${start.toISOString()}, planned ${at}`);
  }
  const printed = at.slice(0, 19).replace("T", " ");
  if (exactly && wall.format(start) !== printed) {
    fault(`${key} is ${wall.format(start)} on the wall, printed ${printed}`);
  }
  const hour = Number(wall.format(start).slice(11, 13));
  if (!exactly && (hour < 7 || hour >= 22)) fault(`${key} in the night`);
};

holds("day", told.opens);
if (told.pulls.length > 0) holds("first-pull", told.pulls[0].at);
for (const step of told.steps.filter((s) => s.kind === "load")) {
  holds(step.id.replaceAll(/[^A-Za-z0-9]/g, "-"), step.start);
}
for (const after of told.after) {
  const hour = Number(after.at.slice(11, 13)) + Number(after.at.slice(14, 16)) / 60;
  holds(`after-${after.minutes_after_finish}m`, after.at, hour >= 7.5 && hour < 22);
}
const title = byKey.get("day")?.summary;
if (title !== told.title) fault(`the title came back as ${title}`);
const alarms = events.flatMap((e) => e.component.getAllSubcomponents("valarm"));
if (alarms.length < events.length - 1) fault(`${alarms.length} alarms for ${events.length} events`);
console.log(`${events.length} events, ${alarms.length} alarms`);
process.exit(faults > 0 ? 1 : 0);
