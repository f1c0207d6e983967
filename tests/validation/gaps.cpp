#include "validation/page.hpp"

namespace dampline::validation {

std::string gaps() {
  return R"(## Data that could not be had

- A drying curve of paper with a time axis. One is known of [vitale1992] and could not be opened; the
  curves used here are of cloth.
- The temperature of a hung wet sheet, measured.
- Moisture of rag paper at which its drying slows in still air; a weighing before and after a blot.
- What a cover over a pile loses at its edges; how fast the rim of a covered pile dries.
- The Cobb value of gelatine-sized rag paper; the water that beaten rag fibres hold.
- An isotherm of rag paper with both its branches; the tables used are recalled, not compared with
  the print.
- Towels and shirts with their area, their air and more than three weighings.

Whoever has one of these: a table in `tests/reference` and a few lines in `tests/validation` put it on
this page.
)";
}

}  // namespace dampline::validation
