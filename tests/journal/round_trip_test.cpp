#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/journal/blocks.hpp>
#include <dampline/journal/kinds.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/rows.hpp>
#include <dampline/journal/write.hpp>

#include "sample_entries.hpp"

namespace dampline::journal {
namespace {

using testing::HasSubstr;

void expect_same(const Entry& a, const Entry& b) {
  EXPECT_EQ(a.time, b.time);
  EXPECT_EQ(a.session, b.session);
  EXPECT_EQ(a.day, b.day);
  EXPECT_EQ(a.stock, b.stock);
  EXPECT_EQ(a.remark, b.remark);
  ASSERT_EQ(a.record.index(), b.record.index());
  const auto left = data(a.record);
  const auto right = data(b.record);
  ASSERT_EQ(left.size(), right.size());
  for (std::size_t i = 0; i < left.size(); ++i) {
    EXPECT_EQ(left[i].field, right[i].field);
    EXPECT_EQ(left[i].text, right[i].text);
    if (left[i].number) {
      EXPECT_NEAR(*left[i].number, *right[i].number, 1e-9 * std::abs(*left[i].number));
    }
  }
}

TEST(JournalRoundTrip, everyKindComesBackAsItWas) {
  std::string text(preamble());
  const auto entries = tests::one_of_every_kind();
  std::set<std::string_view> kinds_seen;
  for (const auto& e : entries) {
    kinds_seen.insert(kind_name(e.record));
    text += written(e);
  }
  EXPECT_EQ(kinds_seen.size(), kinds().size());
  const auto back = read(text, "j.toml");
  EXPECT_TRUE(back.errors.empty());
  EXPECT_FALSE(back.torn);
  ASSERT_EQ(back.entries.size(), entries.size());
  std::string again(preamble());
  for (std::size_t i = 0; i < entries.size(); ++i) {
    SCOPED_TRACE(kind_name(entries[i].record));
    expect_same(entries[i], back.entries[i]);
    EXPECT_TRUE(back.entries[i].others.empty());
    again += written(back.entries[i]);
  }
  EXPECT_EQ(again, text);
}

TEST(JournalRoundTrip, aJournalIsSafeToLookAt) {
  for (const auto& e : tests::one_of_every_kind()) {
    const auto text = written(e);
    EXPECT_EQ(text.find('\x1b'), std::string::npos);
    EXPECT_EQ(text.find("\u202e"), std::string::npos);
    EXPECT_EQ(text.find('\t'), std::string::npos);
  }
  EXPECT_EQ(toml_text("\x01\u0085\u2028"), "\"\\u0001\\u0085\\u2028\"");
}

TEST(JournalRoundTrip, theFirstKeyIsTheSchema) {
  const auto text = written(tests::entry_at(0, Note{"x"}));
  EXPECT_EQ(text.rfind("\n[[entry]]\nschema = 1 # {\ntime = 2026-03-14T09:00:00+01:00\n", 0), 0U);
}

TEST(JournalKinds, haveAWordAnExampleAndFieldsOfTheirOwn) {
  std::set<std::string_view> names;
  for (const auto& kind : kinds()) {
    EXPECT_TRUE(names.insert(kind.name).second) << kind.name;
    EXPECT_FALSE(kind.purpose.empty());
    EXPECT_EQ(kind.example.rfind(std::string(kind.name) + " ", 0), 0U) << kind.example;
    std::set<std::string_view> fields{"schema", "time", "session", "day", "stock", "kind", "note"};
    for (const auto& field : kind.fields) {
      EXPECT_TRUE(fields.insert(field.name).second) << kind.name << " " << field.name;
    }
    EXPECT_EQ(find_kind(kind.name), &kind);
  }
  EXPECT_EQ(find_kind("wiegh"), nullptr);
}

struct Refused {
  const char* kind;
  const char* field;
  const char* value;
  const char* why;
};

TEST(JournalKinds, refuseWhatCannotHaveBeenMeasured) {
  const std::vector<Refused> cases{
      {"weigh", "mass", "64", "bare number"},      {"weigh", "mass", "0 g", "not above 0 g"},
      {"weigh", "mass", "51 kg", "up to 50 kg"},   {"weigh", "mass", "nan g", "number"},
      {"weigh", "state", "blotetd", "not one of"}, {"weigh", "sheet", "0", "from 1"},
      {"weigh", "sheet", "2.5", "whole number"},   {"weigh", "after", "-3 min", "negative"},
      {"length", "length", "11 m", "up to 10 m"},  {"air", "temperature", "95 degC", "not from"},
      {"air", "humidity", "101 %", "100"},         {"press", "left", "3,2", "plain number"},
      {"press", "left", "inf", "plain number"},    {"note", "text", "  ", "empty"},
      {"print", "print", "first", "whole number"},
  };
  for (const auto& c : cases) {
    SCOPED_TRACE(std::string(c.kind) + " " + c.value);
    const auto found = made(c.kind, [&](const Field& f) -> std::optional<std::string> {
      return f.name == c.field ? c.value : std::string(f.example);
    });
    const auto* faults = std::get_if<std::vector<Fault>>(&found);
    ASSERT_NE(faults, nullptr);
    EXPECT_EQ(faults->front().field, c.field);
    EXPECT_THAT(faults->front().refusal.what, HasSubstr(c.why));
    EXPECT_FALSE(faults->front().refusal.help.empty());
  }
}

TEST(JournalKinds, readTheirOwnExamplesAndSayWhatIsMissing) {
  for (const auto& kind : kinds()) {
    const auto good = made(kind.name, [](const Field& f) { return std::string(f.example); });
    EXPECT_TRUE(std::holds_alternative<Record>(good)) << kind.name;
    const auto none = made(kind.name, [](const Field&) { return std::nullopt; });
    EXPECT_FALSE(std::holds_alternative<Record>(none)) << kind.name;
  }
}

TEST(JournalKinds, capTextsInCharactersAndWantUtf8) {
  EXPECT_FALSE(text_fault(std::string(200, 'x'), 200));
  EXPECT_TRUE(text_fault(std::string(201, 'x'), 200));
  std::string umlauts;
  for (int i = 0; i < 200; ++i) umlauts += "\u00e4";
  EXPECT_FALSE(text_fault(umlauts, 200));
  EXPECT_TRUE(text_fault("\xff", 200));
  // A full note of the widest characters fits a block.
  std::string widest;
  for (int i = 0; i < 4000; ++i) widest += "\u0085";  // six bytes each when escaped
  auto entry = tests::entry_at(0, Note{widest});
  const auto text = written(entry);
  EXPECT_LT(text.size(), largest_block);
  EXPECT_EQ(read(text, "j").entries.size(), 1U);
}

TEST(JournalRows, haveAColumnForEachFieldOnceWithItsUnit) {
  const auto& names = columns();
  EXPECT_EQ(std::set<std::string>(names.begin(), names.end()).size(), names.size());
  for (const char* name : {"mass_g", "length_mm", "after_minutes", "temperature_c",
                           "humidity_percent", "wet_bulb_c", "sheet", "other"}) {
    EXPECT_EQ(std::count(names.begin(), names.end(), name), 1) << name;
  }
}

TEST(JournalRows, areCsvWithQuotesWhereNeeded) {
  auto weighed = tests::entry_at(0, Weighing{Weighing::When::dry, units::grams(48.2), {}, 3});
  weighed.session = "Salt, \"marsh\"";
  auto noted = tests::entry_at(1, Note{"two\nlines \x1b"});
  const std::vector<const Entry*> both{&weighed, &noted};
  const auto text = csv(both);
  EXPECT_THAT(text, HasSubstr("09:00:00+01:00,\"Salt, \"\"marsh\"\"\",2026-03-14,"));
  EXPECT_THAT(text, HasSubstr(",48.2,"));
  EXPECT_THAT(text, HasSubstr("\"two\nlines ?\""));
  EXPECT_EQ(text.rfind("time,session,day,stock,kind,note,", 0), 0U);
  EXPECT_TRUE(text.ends_with("\r\n"));
}

}  // namespace
}  // namespace dampline::journal
