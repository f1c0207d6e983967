#!/usr/bin/env bash
# Holds the plan shown in README.md to what the program prints today.
#   tests/docs/readme_plan.sh PROGRAM            compares
#   tests/docs/readme_plan.sh PROGRAM --update   writes it anew, whole
# It stands between the two "plan:" marks, in a ```text block that opens with the command. A line of
# "..." there stands for lines left out.
set -euo pipefail
export LC_ALL=C.UTF-8

top=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$top"
command='dampline plan data/sessions/salt-marsh.toml'
printed=$(COLUMNS=80 NO_COLOR=1 "$1" plan data/sessions/salt-marsh.toml </dev/null)
printed=$(sed 's/[[:space:]]*$//' <<<"$printed")
fence='```'

if [[ ${2-} == --update ]]; then
  {
    sed '/^<!-- plan: begin -->$/q' README.md
    printf '%stext\n$ %s\n%s\n%s\n' "$fence" "$command" "$printed" "$fence"
    sed -n '/^<!-- plan: end -->$/,$p' README.md
  } >README.md.new
  mv README.md.new README.md
  exit 0
fi

shown=$(sed -n '/^<!-- plan: begin -->$/,/^<!-- plan: end -->$/p' README.md | sed '1d;$d')
[[ -n $shown ]] || {
  echo "README.md shows no plan; tests/docs/readme_plan.sh PROGRAM --update writes it" >&2
  exit 1
}
shown=$(sed "/^$fence/d" <<<"$shown")
[[ ${shown%%$'\n'*} == "\$ $command" ]] || {
  echo "README.md: the plan does not open with its command" >&2
  exit 1
}
shown=${shown#*$'\n'}
rest=$'\n'$printed$'\n'
chunk=
while IFS= read -r line; do
  if [[ $line != ... ]]; then
    chunk+=$line$'\n'
    continue
  fi
  [[ $rest == *$'\n'"$chunk"* ]] || {
    printf 'README.md shows what the program does not print:\n%s' "$chunk" >&2
    exit 1
  }
  rest=$'\n'${rest#*$'\n'"$chunk"}
  chunk=
done <<<"$shown"$'\n...'
