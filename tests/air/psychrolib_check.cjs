// Moist-air points computed by the npm package psychrolib 1.1.1, as CSV on standard output.
//
//   npm install --prefix DIR psychrolib@1.1.1
//   node tests/air/psychrolib_check.cjs DIR > tests/reference/psychrolib_points.csv
//   node tests/air/psychrolib_check.cjs DIR --compare tests/reference/psychrolib_points.csv
//
// --compare recomputes every point and fails when the committed file differs in any byte.
// Points whose wet bulb or temperature is at or below 0.5 degC are left out: there the package takes
// ice, this project supercooled water.
'use strict';
const fs = require('fs');
const path = require('path');

const [directory, mode, committed] = process.argv.slice(2);
if (!directory) {
  console.error('usage: node psychrolib_check.cjs DIR [--compare FILE]');
  process.exit(2);
}
const home = path.resolve(directory, 'node_modules', 'psychrolib');
const version = JSON.parse(fs.readFileSync(path.join(home, 'package.json'), 'utf8')).version;
if (version !== '1.1.1') {
  console.error(`psychrolib ${version} found, 1.1.1 wanted`);
  process.exit(1);
}
const p = require(home);
p.SetUnitSystem(p.SI);

const points = [];
for (const celsius of [2, 5, 10, 15, 20, 25, 30, 40]) {
  for (const humidity of [0.1, 0.3, 0.5, 0.7, 0.85, 0.97]) points.push([celsius, humidity, 101325]);
}
for (const altitude of [500, 1500, 2240, 3650]) {
  for (const [celsius, humidity] of [[12, 0.6], [18, 0.4], [20, 0.35], [24, 0.75], [33, 0.2]]) {
    points.push([celsius, humidity, Math.round(p.GetStandardAtmPressure(altitude))]);
  }
}

const lines = [
  '# Moist air at given temperature, relative humidity and pressure.',
  '# Source: [psychrolib] run as npm package psychrolib 1.1.1 by tests/air/psychrolib_check.cjs;',
  '#   node tests/air/psychrolib_check.cjs DIR > tests/reference/psychrolib_points.csv',
  '# Allowed: 0.001 relative for humidity ratio and density; wet bulb and dew point 0.01 K.',
  'celsius,humidity,pressure_pa,wet_bulb_c,dew_point_c,humidity_ratio,density_kg_m3',
];
for (const [celsius, humidity, pressure] of points) {
  const bulb = p.GetTWetBulbFromRelHum(celsius, humidity, pressure);
  const dew = p.GetTDewPointFromRelHum(celsius, humidity);
  if (bulb <= 0.5) continue;
  const ratio = p.GetHumRatioFromRelHum(celsius, humidity, pressure);
  const density = p.GetMoistAirDensity(celsius, ratio, pressure);
  const dewText = dew > 0.5 ? dew.toFixed(4) : 'below freezing';
  lines.push([celsius, humidity, pressure, bulb.toFixed(4), dewText, ratio.toPrecision(7),
              density.toPrecision(7)].join(','));
}
const text = lines.join('\n') + '\n';

if (mode === '--compare') {
  if (fs.readFileSync(committed, 'utf8') !== text) {
    console.error(`${committed} differs from psychrolib ${version}`);
    process.exit(1);
  }
  console.log(`${lines.length - 5} points agree with ${committed}`);
} else {
  process.stdout.write(text);
}
