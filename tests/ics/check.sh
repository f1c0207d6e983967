#!/usr/bin/env bash
# Calendars of whole plans, read by two other programs.
#   tests/ics/check.sh PROGRAM FOLDER LIBICAL_CHECK [NODE NODE_MODULES]
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
program=$1 folder=$2 libical=$3 node=${4-} modules=${5-}
marsh=$here/../../data/sessions/salt-marsh.toml
rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"

# The clocks of Lisbon go forward at 01:00 on 29 March 2026: once in the blotters, once in a day
# that begins before, and an autumn day that ends after they go back (25 October, 02:00).
sed 's/2026-03-14/2026-03-28/' "$marsh" >blotters.toml
sed 's/2026-03-14/2026-03-29/; s/"09:30"/"00:15"/; s/"17:30"/"09:30"/; s/"13:00"/"05:00"/' "$marsh" >spring.toml
sed 's/2026-03-14/2026-10-25/; s/"09:30"/"00:15"/; s/"17:30"/"09:30"/; s/"13:00"/"05:00"/' "$marsh" >autumn.toml
sed 's/^title = .*/title = "Comma, semicolon; back\\\\slash, \\"quotes\\" and caf\\u00e9 \\u6e7f\\u7d19 at length, to be folded somewhere"/' "$marsh" >words.toml
for day in blotters spring autumn words; do
  status=0
  "$program" plan $day.toml --quiet --ics $day.ics --json $day.json || status=$?
  ((status <= 1))
  "$libical" $day.ics >$day.events
  cp -p $day.toml again.toml
  "$program" plan again.toml --quiet --ics again.ics || ((status <= 1))
  diff <(cut -f1 $day.events) <("$libical" again.ics | cut -f1) || {
    echo "$day: other ids when written again" >&2
    exit 1
  }
done

# The check must be able to fail.
grep -v '^UID' blotters.ics >no-id.ics
sed 's/\r$//' blotters.ics >bare.ics
sed 's/^TRIGGER:.*/TRIGGER:banana\r/' blotters.ics >banana.ics
sed 's/^DTEND:.*/DTEND:20200101T000000Z\r/' blotters.ics >backwards.ics
for spoiled in no-id bare banana backwards; do
  "$libical" --refuse $spoiled.ics || {
    echo "$spoiled.ics is accepted" >&2
    exit 1
  }
done

if [[ -n $node && -d $modules/ical.js ]]; then
  for day in blotters spring autumn words; do
    "$node" "$here/ical_js_check.mjs" "$modules" $day.ics $day.json
  done
  ! "$node" "$here/ical_js_check.mjs" "$modules" banana.ics blotters.json 2>/dev/null
  ! "$node" "$here/ical_js_check.mjs" "$modules" spring.ics blotters.json 2>/dev/null
elif [[ -n ${DAMPLINE_REQUIRED-} ]]; then
  echo "ical.js is missing: npm ci --prefix tests/ics --ignore-scripts" >&2
  exit 1
else
  echo "without ical.js"
fi
