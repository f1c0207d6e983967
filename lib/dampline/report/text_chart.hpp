#pragma once

#include <dampline/report/text_page.hpp>

namespace dampline::report {

/// Who does what, a row of letters for each lane: every letter stands for the same few minutes.
void text_chart(TextPage& page, const Chart& chart);

}  // namespace dampline::report
