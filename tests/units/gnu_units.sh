#!/usr/bin/env bash
# Conversions as GNU units makes them (Debian package units), for tests/reference/gnu_units.csv:
#   tests/units/gnu_units.sh > tests/reference/gnu_units.csv
# A line of the list: kind of quantity | as dampline reads it | as GNU units reads it | SI unit.
set -euo pipefail
export LC_ALL=C

cat <<'HEAD'
# Conversions to SI units made by another program.
# Source: GNU units (Debian package units), run by tests/units/gnu_units.sh; the package carries its own
#   definitions of inch, pound, ream and of the US basis weights by the name of the grade.
# Allowed: 1e-9 relative; 2e-7 for mercury columns, whose density is rounded differently here and there.
kind,text,gnu_expression,si_unit,si,allowed
HEAD

while IFS='|' read -r kind text expression unit; do
  [[ -n $kind ]] || continue
  value=$(units --terse --digits 15 "$expression" "$unit")
  allowed=1e-9
  [[ $unit != Pa || $text != *Hg ]] || allowed=2e-7
  printf '%s,%s,%s,%s,%s,%s\n' "$kind" "$text" "$expression" "$unit" "$value" "$allowed"
done <<'LIST'
grammage|300 g/m2|300 g/m^2|kg/m^2
grammage|250 gsm|250 gsm|kg/m^2
grammage|0.3 kg/m2|0.3 kg/m^2|kg/m^2
grammage|8 oz/yd2|8 oz/yd^2|kg/m^2
grammage|140 lb watercolour 22x30 in|140 lb / 22 in 30 in ream|kg/m^2
grammage|90 lb watercolour 22x30 in|90 lb / 22 in 30 in ream|kg/m^2
grammage|300 lb watercolour 22 x 30 in|300 lb / 22 in 30 in ream|kg/m^2
grammage|70 lb text 25x38 in|70 lbtext|kg/m^2
grammage|90 lb text 25x38 in|90 lbtext|kg/m^2
grammage|100 lb book 25x38 in|100 lbbook|kg/m^2
grammage|60 lb offset 25x38 in|60 lboffset|kg/m^2
grammage|60 lb cover 20x26 in|60 lbcover|kg/m^2
grammage|80 lb cover 20x26 in|80 lbcover|kg/m^2
grammage|110 lb cover 20x26 in|110 lbcover|kg/m^2
grammage|20 lb bond 17x22 in|20 lbbond|kg/m^2
grammage|24 lb writing 17x22 in|24 lbwriting|kg/m^2
grammage|28 lb ledger 17x22 in|28 lbledger|kg/m^2
grammage|100 lb bristol 22.5x28.5 in|100 lbbristol|kg/m^2
grammage|110 lb index 25.5x30.5 in|110 lbindex|kg/m^2
grammage|150 lb tag 24x36 in|150 lbtag|kg/m^2
grammage|30 lb newsprint 24x36 in|30 lbnewsprint|kg/m^2
grammage|10 lb tissue 24x36 in|10 lbtissue|kg/m^2
grammage|25 lb glassine 24x36 in|25 lbglassine|kg/m^2
grammage|100 lb blotting 19x24 in|100 lbblotting|kg/m^2
length|38 cm|38 cm|m
length|0.45 mm|0.45 mm|m
length|450 um|450 um|m
length|22 in|22 in|m
length|30 inches|30 inch|m
length|2.5 ft|2.5 ft|m
length|1.2 m|1.2 m|m
sheet_area|A0|A0paper|m^2
sheet_area|A1|A1paper|m^2
sheet_area|A2|A2paper|m^2
sheet_area|A3|A3paper|m^2
sheet_area|A4|A4paper|m^2
sheet_area|A5|A5paper|m^2
sheet_area|A6|A6paper|m^2
sheet_area|A7|A7paper|m^2
sheet_area|A8|A8paper|m^2
sheet_area|B0|B0paper|m^2
sheet_area|B1|B1paper|m^2
sheet_area|B2|B2paper|m^2
sheet_area|B3|B3paper|m^2
sheet_area|B4|B4paper|m^2
sheet_area|B5|B5paper|m^2
sheet_area|B6|B6paper|m^2
sheet_area|B7|B7paper|m^2
sheet_area|B8|B8paper|m^2
width|22 x 30 in|22 in|m
height|22 x 30 in|30 in|m
height|38 x 56 cm|56 cm|m
duration|90 s|90 s|s
duration|35 min|35 min|s
duration|2 h|2 hour|s
duration|1 h 30 min|1 hour + 30 min|s
duration|3 days|3 day|s
temperature|17 degC|tempC(17)|K
temperature|-4 degC|tempC(-4)|K
temperature|64 degF|tempF(64)|K
temperature|32 F|tempF(32)|K
temperature|290 K|290 K|K
mass|64 g|64 g|kg
mass|1.2 kg|1.2 kg|kg
mass|5 oz|5 oz|kg
mass|2 lb|2 lb|kg
pressure|1013.25 hPa|1013.25 hPa|Pa
pressure|101.3 kPa|101.3 kPa|Pa
pressure|1 bar|1 bar|Pa
pressure|980 mbar|980 mbar|Pa
pressure|30 inHg|30 inHg|Pa
pressure|760 mmHg|760 mmHg|Pa
density|0.55 g/cm3|0.55 g/cm^3|kg/m^3
density|550 kg/m3|550 kg/m^3|kg/m^3
velocity|0.15 m/s|0.15 m/s|m/s
velocity|12 cm/s|12 cm/s|m/s
velocity|0.5 km/h|0.5 km/hour|m/s
velocity|30 ft/min|30 ft/min|m/s
diffusivity|0.02 mm2/s|0.02 mm^2/s|m^2/s
flux|73 g/m2h|73 g/m^2 hour|kg/m^2 s
flux|0.02 kg/m2s|0.02 kg/m^2 s|kg/m^2 s
area|85 cm2|85 cm^2|m^2
area|12 in2|12 in^2|m^2
area|600 mm2|600 mm^2|m^2
LIST
