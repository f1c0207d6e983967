#!/usr/bin/env bash
# What only the program as a process can show of docs/conventions.md, by the numbers there.
#   tests/cli/conventions.sh PROGRAM FOLDER
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
program=$1 folder=$2
session=$top/data/sessions/heron-drypoint.toml
rm -rf "$folder"
mkdir -p "$folder/elsewhere"
cd "$folder"
export SOURCE_DATE_EPOCH=1773480600
unset NO_COLOR COLUMNS
escape=$'\e'
bad=0
fail() {
  echo "point $1: $2" >&2
  bad=1
}
status_of() { # COMMAND...: its status, its output thrown away
  local status=0
  "$@" >out 2>err </dev/null || status=$?
  echo $status
}

# Both read to the end: a reader that stops early would break the pipe.
coloured() { [[ $(cat) == *"$escape["* ]]; }
foreign() { LC_ALL=C grep -c '[^ -~]' >/dev/null; }

# 6: the answer alone on standard output, or nothing
"$program" plan "$session" --samples 8 --json - 2>/dev/null | python3 -m json.tool >/dev/null || fail 6 "no JSON"
[[ $(status_of "$program" plan /nowhere.toml --json -) == 66 && ! -s out ]] || fail 6 "words on stdout of a failure"

# 7: colour for a terminal only, and as it is told
on_terminal() { script -qec "$1" /dev/null </dev/null; }
check="$program plan $session --samples 8"
if command -v script >/dev/null; then
  on_terminal "TERM=xterm $check" | coloured || fail 7 "no colour on a terminal"
  on_terminal "TERM=xterm NO_COLOR= $check" | coloured || fail 7 "an empty NO_COLOR has an effect"
  ! on_terminal "TERM=xterm NO_COLOR=1 $check" | coloured || fail 7 "NO_COLOR has no effect"
  ! on_terminal "TERM=dumb $check" | coloured || fail 7 "colour on a dumb terminal"
  ! on_terminal "TERM=xterm $check --color never" | coloured || fail 7 "--color never has no effect"
fi
$check >piped
! coloured <piped || fail 7 "colour in a pipe"
NO_COLOR=1 $check --color always | coloured || fail 7 "--color always does not go before NO_COLOR"

# 8: progress on a terminal only
[[ $(status_of "$program" compare "$session" --samples 8 --studio "12 degC, 80 %") == 0 && ! -s err ]] ||
  fail 8 "progress without a terminal"

# 9: width and alphabet
for columns in 60 80 140; do
  (($(COLUMNS=$columns LC_ALL=C.UTF-8 $check | LC_ALL=C.UTF-8 wc -L) <= columns)) ||
    fail 9 "lines wider than $columns"
done
! LC_ALL=C $check | foreign || fail 9 "more than ASCII in a plain locale"
! LC_ALL=C.UTF-8 $check --ascii | foreign || fail 9 "more than ASCII with --ascii"

# 10: a full disk is an error, a closed pipe is none
full=0
$check >/dev/full 2>err || full=$?
[[ $full == 74 && -s err ]] || fail 10 "a full disk gives status $full"
[[ $(status_of $check --quiet --ics /dev/full) == 74 ]] || fail 10 "a file on a full disk"
(set +o pipefail; $check 2>err | head -n 1 >/dev/null)
[[ ! -s err ]] || fail 10 "noise after a closed pipe: $(cat err)"

# 13: no name of the language in any message
for words in "plan $top/README.md" "plan $folder" "check /dev/null" "dry $session --finished 99:99" "plan $session --samples x"; do
  # shellcheck disable=SC2086
  status_of "$program" $words >/dev/null
  ! grep -q 'std::\|boost\|toml::\|what()\|terminate' err || fail 13 "$words: $(cat err)"
done

# 14: an interrupt ends it with 130 and leaves no half-written file
"$program" plan "$top/data/sessions/salt-marsh.toml" --quiet --samples 10000 --html half.html &
running=$!
sleep 0.4
kill -INT $running 2>/dev/null || true
got=0
wait $running || got=$?
[[ ($got == 130 && ! -e half.html) || $got -le 1 ]] || fail 14 "an interrupt gives status $got"
[[ -z $(find . -name '.half*') ]] || fail 14 "a temporary file stays behind"

# 16: the same bytes, whatever the locale, zone and folder
all() { # SUFFIX
  "$program" plan "$session" --samples 8 --html $1.html --json $1.json --ics $1.ics --csv $1.csv --svg $1.svg --pdf $1.pdf >$1.txt
  "$program" dry "$session" --samples 8 --json $1.dry.json --ics $1.dry.ics >$1.dry.txt
}
LC_ALL=C.UTF-8 TZ=UTC all a
(cd elsewhere && LC_ALL=C.UTF-8 LC_NUMERIC=de_DE.UTF-8 TZ=Asia/Tokyo all ../b)
for kind in html json ics csv svg pdf txt dry.json dry.ics dry.txt; do
  cmp a.$kind b.$kind || fail 16 "$kind differs"
done

# 26: the editor's line in every example
for example in "$top"/data/sessions/*.toml; do
  [[ $(head -n 1 "$example") == '#:schema ../session.schema.json' ]] || fail 26 "${example##*/} has no editor line"
done

# 25: every document with commands is run by docs.commands_run
for document in "$top"/README.md "$top"/DEVELOPERS.md "$top"/docs/*.md; do
  name=${document#"$top"/}
  ! grep -q '^```sh$' "$document" || grep -q "$name" "$top/tests/CMakeLists.txt" ||
    fail 25 "$name has commands that no test runs"
done

# The table itself: what it names as holding a point is there.
while read -r name; do
  [[ $name =~ ^[A-Z][A-Za-z]*\.[a-z] ]] && name=${name##*.}
  grep -rqF -- "$name" "$top/tests" "$top/CMakeLists.txt" || fail "of the table" "$name is nowhere"
done < <(sed -n 's/^| *[0-9][0-9, -]* |[^|]*|\(.*\)|$/\1/p' "$top/docs/conventions.md" | grep -o '`[^`]*`' | tr -d '`')
exit $bad
