#include "warning_words.hpp"

#include <array>

namespace dampline::cli {

std::span<const WarningWord> warning_words() {
  static constexpr std::array<WarningWord, 28> all{{
      {"nothing-fits", "Not one print fits the day; the plan says what is short."},
      {"fewer-prints", "Fewer prints fit the day than are asked for; the plan says what is short."},
      {"window",
       "The time between too wet and too dry is too short for one print to be made in it."},
      {"pull-outside-window",
       "A pull is expected to find its sheet outside the damp its process wants."},
      {"doubtful-pulls",
       "Likely sheets of this paper differ so much that some pulls more often than not find theirs "
       "outside the band; a weighing of the paper helps most."},
      {"register",
       "A later image is more likely than not to fall further from the first than the tolerance."},
      {"never-ready", "No soak, sponging or method tried brings this paper to the damp it wants."},
      {"no-tub", "Sheets are misted, as there is no tub or the paper must not go into one."},
      {"rest-too-long", "The rest asked for is longer than the sheet stays printable, or keeps."},
      {"dries-while-laid",
       "In this air a sheet leaves the band before it can be laid to the marks; its rim first."},
      {"hands-again", "A method wants hands a second time; the plan gives that time at the first."},
      {"pack-uneven", "The sheets of a damp pack still differ too much when it is opened."},
      {"not-for-the-tub", "This paper goes slippery and tears in water."},
      {"tub-too-long", "The soak is longer than the size of this paper bears."},
      {"hot-water", "Water this warm takes the size off."},
      {"size-loss", "A soak this long washes size out of the surface."},
      {"keeps-too-long", "Damp paper would be kept for longer than it keeps."},
      {"readings", "Something of the log of the air was left out or bridged."},
      {"session", "Something in the session file is doubtful, but can be planned."},
      {"other-days",
       "Sheets are dried between plates: the day prints one of them, and its plan says what to "
       "write for the next day."},
      {"prints-lost",
       "The day runs late: prints that the morning had planned no longer fit (docs/late.md)."},
      {"past-the-end",
       "The day runs so late that what is begun and the cleaning up end after its end."},
      {"cover", "A rescue: the sheet lay open and is still good; put it under plastic at once."},
      {"mist",
       "A rescue: water laid on a sheet that has dried too far, as much as brings it to the best "
       "of "
       "its band after a rest under cover."},
      {"blot", "A rescue: a sheet that is too wet is blotted once more and rested."},
      {"ink-again", "A rescue: the ink of a plate has stood too long; wipe it off and ink again."},
      {"refrigerate", "How long wet sheets whose prints are lost keep, covered and in the cold."},
      {"damp-again",
       "What drying sheets and damping them again on another day does to their size."},
  }};
  return all;
}

}  // namespace dampline::cli
