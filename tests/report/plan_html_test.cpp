#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <dampline/report/markup.hpp>
#include <dampline/report/plan_html.hpp>

#include "support/sample_plan.hpp"

namespace dampline::tests {

namespace {

std::string page(const planner::Plan& plan) {
  return report::plan_html(report::view(plan, sample_clock()));
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

/// Reads the page as XML would (but for its first line): every element closed in order, every
/// attribute quoted, every ampersand an entity. Returns the first fault, or nothing.
std::string fault(const std::string& html) {
  std::vector<std::string> open;
  std::set<std::string> ids;
  std::size_t at = html.find('\n');
  while ((at = html.find_first_of("<&", at)) != std::string::npos) {
    if (html[at] == '&') {
      const auto end = html.find(';', at);
      if (end == std::string::npos || end - at > 7) return "bare & at " + html.substr(at, 30);
      at = end;
      continue;
    }
    // The end of the tag, quotes respected.
    std::size_t end = at + 1;
    char quote = 0;
    for (; end < html.size() && (quote != 0 || html[end] != '>'); ++end) {
      if (quote == 0 && html[end] == '"') {
        quote = '"';
      } else if (html[end] == quote) {
        quote = 0;
      } else if (html[end] == '<') {
        return "a < within a tag at " + html.substr(at, 60);
      }
    }
    const std::string tag = html.substr(at + 1, end - at - 1);
    if (const auto id = tag.find(" id=\""); id != std::string::npos) {
      const auto value = tag.substr(id + 5, tag.find('"', id + 5) - id - 5);
      if (!ids.insert(value).second) return "id twice: " + value;
    }
    const std::string name =
        tag.substr(tag[0] == '/' ? 1 : 0, tag.find_first_of(" />", 1) - (tag[0] == '/' ? 1 : 0));
    if (tag[0] == '/') {
      if (open.empty() || open.back() != tag.substr(1))
        return "unexpected </" + tag.substr(1) + ">";
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(name);
    }
    at = end;
    if (tag == "style" || tag.starts_with("script")) at = html.find("</" + name + ">", end);
  }
  return open.empty() ? "" : "left open: " + open.back();
}

}  // namespace

TEST(PlanHtml, isWellFormedWhateverTheTextHolds) {
  EXPECT_EQ(fault(page(sample_plan())), "");
  EXPECT_EQ(fault(page(short_plan())), "");
  EXPECT_EQ(fault(page(hostile_plan())), "");
  EXPECT_EQ(fault(page(planner::Plan{})), "");
}

TEST(PlanHtml, theReaderOfThisTestSeesFaults) {
  EXPECT_NE(fault("\n<p>a & b</p>"), "");
  EXPECT_NE(fault("\n<p><b>a</p></b>"), "");
  EXPECT_NE(fault("\n<p id=\"a\"></p><p id=\"a\"></p>"), "");
  EXPECT_NE(fault("\n<p title=\"<\"></p>"), "");
}

TEST(PlanHtml, textStaysText) {
  const auto html = page(hostile_plan());
  // The day for the script, and the script; no third, and the first holds no markup.
  EXPECT_EQ(count(html, "<script"), 2U);
  EXPECT_EQ(count(html, "</script"), 2U);
  EXPECT_NE(html.find("\\u003cscript\\u003e"), std::string::npos);
  EXPECT_EQ(html.find("<img"), std::string::npos);
  EXPECT_EQ(html.find('\x1b'), std::string::npos);
  EXPECT_NE(html.find("&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;quoted&quot;"),
            std::string::npos);
  EXPECT_NE(html.find("\U0001F980"), std::string::npos);
}

TEST(PlanHtml, fetchesNothing) {
  const auto html = page(sample_plan());
  EXPECT_NE(html.find("default-src &#39;none&#39;"), std::string::npos);
  for (const char* word : {"<link", "<img", " src=", "@import", "javascript:", " onclick=", "url(h",
                           "innerHTML", "fetch(", "XMLHttp", "import("}) {
    EXPECT_EQ(html.find(word), std::string::npos) << word;
  }
  // The only address is the name of the SVG vocabulary, which is never fetched.
  EXPECT_EQ(count(html, "http"),
            count(html, "http://www.w3.org/2000/svg") + count(html, "http-equiv"));
}

TEST(PlanHtml, hasHeadingsInOrderAndOneTitle) {
  const auto html = page(short_plan());
  EXPECT_EQ(count(html, "<h1"), 1U);
  EXPECT_EQ(count(html, "<title>"), 1U);
  EXPECT_NE(html.find("<html lang=\"en\">"), std::string::npos);
  int level = 0;
  for (auto at = html.find("<h"); at != std::string::npos; at = html.find("<h", at + 1)) {
    const int next = html[at + 2] - '0';
    if (next < 1 || next > 6) continue;
    EXPECT_LE(next, level + 1);
    level = next;
  }
}

TEST(PlanHtml, everyStepHasABoxAndATimeAndRoomForTheRealOne) {
  const auto view = report::view(sample_plan(), sample_clock());
  const auto html = report::plan_html(view);
  std::size_t rows = 0;
  for (const auto& block : view.steps) rows += block.rows.size();
  EXPECT_EQ(count(html, "type=\"checkbox\""), rows);
  EXPECT_EQ(count(html, "<time>"), rows);
  EXPECT_EQ(count(html, "class=\"real\""), rows + 1);
  EXPECT_EQ(count(html, "scope=\"rowgroup\""), view.steps.size());
}

TEST(PlanHtml, answersWhatIsAskedMost) {
  const auto view = report::view(sample_plan(), sample_clock());
  const auto html = report::plan_html(view);
  for (const char* words : {"Start soaking", "Is this sheet ready?", "limp, cool, no shine",
                            "Will the next plate fit?", "After the day", "Record card"}) {
    EXPECT_NE(html.find(words), std::string::npos) << words;
  }
  EXPECT_EQ(count(html, "data-sheet="), view.sheets.size());
  EXPECT_EQ(view.record.size(), 7U);  // a line a print, the proof with them
}

TEST(PlanHtml, theFitIsToldByTheDoubtfulPull) {
  auto plan = sample_plan();
  for (auto& pull : plan.pulls) {
    if (pull.print == 4 && pull.misfit) pull.misfit->within = units::Chance(0.4);
  }
  const auto view = report::view(plan, sample_clock());
  EXPECT_TRUE(view.fit.starts_with("Rather not: key")) << view.fit;
  EXPECT_NE(view.fit.find("40 %"), std::string::npos);
  EXPECT_NE(view.fit_notes.front().find("print 4"), std::string::npos);
  EXPECT_NE(view.fit_notes.front().find("6 of 7 later pulls"), std::string::npos);
}

TEST(PlanHtml, anotherPlanOfTheDayIsKeptApart) {
  const auto id = [](const planner::Plan& plan) {
    const auto data = report::view(plan, sample_clock()).script_data;
    return data.substr(data.find("\"id\""), 20);
  };
  auto moved = sample_plan();
  moved.steps.back().end += planner::HalfMinutes(1);
  EXPECT_EQ(id(sample_plan()), id(sample_plan()));
  EXPECT_NE(id(sample_plan()), id(moved));
}

TEST(PlanHtml, drawingsSayWhatTheyShow) {
  const auto html = page(sample_plan());
  EXPECT_EQ(count(html, "role=\"img\""), 3U);  // the day, two batches
  EXPECT_EQ(count(html, "<desc id="), 3U);
  EXPECT_NE(html.find("Printable between 0.50 and 0.70"), std::string::npos);
}

TEST(PlanHtml, agreesWithTheViewOnEveryPull) {
  const auto view = report::view(sample_plan(), sample_clock());
  const auto html = report::plan_html(view);
  for (const auto& p : view.pulls) {
    EXPECT_NE(html.find(p.ready_from + " to " + p.ready_until), std::string::npos);
    EXPECT_NE(html.find(p.moisture + " (" + p.band + ")"), std::string::npos);
  }
}

TEST(PlanHtml, isSmallAndTheSameEachTime) {
  const auto html = page(sample_plan());
  EXPECT_EQ(html, page(sample_plan()));
  EXPECT_LT(html.size(), 300000U);
}

TEST(Markup, escapesForTextAndAttributesAlike) {
  EXPECT_EQ(report::escaped("a<b>&\"'"), "a&lt;b&gt;&amp;&quot;&#39;");
  EXPECT_EQ(report::escaped("52 % of"), "52\u00a0% of");
}

}  // namespace dampline::tests
