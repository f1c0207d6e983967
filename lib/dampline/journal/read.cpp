#include <algorithm>

#include <dampline/journal/blocks.hpp>
#include <dampline/journal/kinds.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/write.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

namespace dampline::journal {
namespace {

using session::InputError;
using session::Kind;
using session::Value;

constexpr const char* time_example = "write time = 2026-03-14T14:20:00+01:00";

std::string value_text(const Value& v) {
  switch (v.kind) {
    case Kind::text:
      return v.text;
    case Kind::whole:
      return std::to_string(v.whole);
    case Kind::number:
      return units::exact(v.number);
    case Kind::truth:
      return v.truth ? "true" : "false";
    case Kind::date:
      return date_text(v.date);
    case Kind::date_time:
      return session::rfc3339(v.offset.value_or(std::chrono::minutes(0)),
                              std::chrono::sys_days(v.date) + v.time);
    default:
      return "(" + std::string(session::named(v.kind)) + ")";
  }
}

// One block as an entry; what is wrong is added to the errors.
class BlockReader {
 public:
  BlockReader(const Block& block, std::string_view text, std::string_view file,
              session::InputErrors& errors)
      : block_(block), text_(block.of(text)), file_(file), errors_(errors) {}

  std::optional<Entry> read();

 private:
  void fail(session::Place where, std::string what, std::string help) {
    add(session::at(file_, text_, where, std::move(what), std::move(help)));
  }
  void add(InputError e) {
    e.where.line += block_.line - 1;
    e.unreadable = false;  // this block, not the file
    errors_.push_back(std::move(e));
    good_ = false;
  }
  std::optional<Value> table();
  const session::Member* take(std::string_view key);
  const Value* take(std::string_view key, Kind kind, std::string_view help, bool required);
  void take_text(std::string_view key, std::size_t longest, std::string& to);
  void take_moment(Entry& entry);
  void take_record(Entry& entry, std::string_view kind, bool newer);
  void complain(const Fault& fault);

  const Block& block_;
  std::string_view text_;
  std::string_view file_;
  session::InputErrors& errors_;
  Value table_;
  std::vector<bool> taken_;
  bool good_ = true;
};

std::optional<Value> BlockReader::table() {
  if (!block_.entry) {
    fail({1, 1}, "this belongs to no entry",
         "begin an entry with the line [[entry]], or write # before a remark");
    return std::nullopt;
  }
  if (text_.size() > largest_block) {
    fail({1, 1}, "an entry of more than 32 KiB", "write long texts into several entries");
    return std::nullopt;
  }
  auto parsed = session::parse_document(text_, file_);
  if (auto* error = std::get_if<InputError>(&parsed)) {
    add(std::move(*error));
    return std::nullopt;
  }
  auto& top = std::get<Value>(parsed);
  if (top.members.size() != 1 || top.members[0].value.items.size() != 1) {
    fail({1, 1}, "an entry with other tables in it",
         "write key = value lines below [[entry]], no tables");
    return std::nullopt;
  }
  return std::move(top.members[0].value.items[0]);
}

const session::Member* BlockReader::take(std::string_view key) {
  for (std::size_t i = 0; i < table_.members.size(); ++i) {
    if (table_.members[i].key != key) continue;
    taken_[i] = true;
    return &table_.members[i];
  }
  return nullptr;
}

const Value* BlockReader::take(std::string_view key, Kind kind, std::string_view help,
                               bool required) {
  const auto* member = take(key);
  if (member == nullptr) {
    if (required) fail({1, 1}, "no " + std::string(key) + " in this entry", std::string(help));
    return nullptr;
  }
  if (member->value.kind == kind) return &member->value;
  fail(member->value.where,
       std::string(key) + " is " + std::string(session::named(member->value.kind)) + ", not " +
           std::string(session::named(kind)),
       std::string(help));
  return nullptr;
}

void BlockReader::take_text(std::string_view key, std::size_t longest, std::string& to) {
  const auto help = "write " + std::string(key) + " = \"...\"";
  const auto* value = take(key, Kind::text, help, false);
  if (value == nullptr) return;
  if (const auto fault = text_fault(value->text, longest)) {
    fail(value->where, std::string(key) + " is " + fault->what, fault->help);
  } else {
    to = value->text;
  }
}

bool known_year(std::chrono::year_month_day date) {
  return date.year() >= std::chrono::year(1970) && date.year() <= std::chrono::year(2200);
}

void BlockReader::take_moment(Entry& entry) {
  const auto* time = take("time", Kind::date_time, time_example, true);
  if (time != nullptr && (!time->offset || !known_year(time->date))) {
    fail(time->where,
         time->offset ? "time is not in the years 1970 to 2200"
                      : "time says not how far its clock stands from UTC",
         time_example);
  } else if (time != nullptr) {
    entry.time.offset = *time->offset;
    entry.time.at = std::chrono::sys_days(time->date) + time->time - *time->offset;
    entry.day = time->date;
  }
  const auto* day = take("day", Kind::date, "write day = 2026-03-14", false);
  if (day == nullptr) return;
  if (!known_year(day->date)) {
    fail(day->where, "day is not in the years 1970 to 2200", "write day = 2026-03-14");
  } else {
    entry.day = day->date;
  }
}

void BlockReader::complain(const Fault& fault) {
  for (const auto& member : table_.members) {
    if (member.key != fault.field) continue;
    const auto where = member.value.kind == Kind::text
                           ? session::inside_text(member.value, text_, fault.refusal.column)
                           : member.value.where;
    return fail(where, fault.field + ": " + fault.refusal.what, fault.refusal.help);
  }
  fail({1, 1}, fault.field.empty() ? fault.refusal.what : fault.field + " is " + fault.refusal.what,
       fault.refusal.help);
}

void BlockReader::take_record(Entry& entry, std::string_view kind, bool newer) {
  entry.record = Unknown{std::string(kind)};
  if (find_kind(kind) == nullptr) return;
  const auto before = taken_;
  auto found = made(kind, [this](const Field& field) -> std::optional<std::string> {
    const auto* member = take(field.name);
    if (member == nullptr) return std::nullopt;
    return value_text(member->value);
  });
  if (auto* record = std::get_if<Record>(&found)) {
    entry.record = std::move(*record);
  } else if (newer) {
    taken_ = before;
  } else {
    for (const auto& fault : std::get<std::vector<Fault>>(found)) complain(fault);
  }
}

std::optional<Entry> BlockReader::read() {
  auto found = table();
  if (!found) return std::nullopt;
  table_ = std::move(*found);
  taken_.assign(table_.members.size(), false);
  Entry entry;
  entry.line = block_.line;
  const auto* schema =
      take("schema", Kind::whole, "write schema = 1 as the first line below [[entry]]", true);
  const bool newer = schema != nullptr && schema->whole > 1;
  take_moment(entry);
  take_text("session", longest_name, entry.session);
  take_text("stock", longest_name, entry.stock);
  const auto* kind = take("kind", Kind::text, "write kind = \"note\"", true);
  std::string remark;
  take_text("note", longest_note, remark);
  if (!remark.empty()) entry.remark = remark;
  if (kind != nullptr) take_record(entry, kind->text, newer);
  for (std::size_t i = 0; i < taken_.size(); ++i) {
    if (taken_[i]) continue;
    entry.others.push_back({table_.members[i].key, value_text(table_.members[i].value)});
  }
  if (!good_) return std::nullopt;
  return entry;
}

}  // namespace

bool is_journal(std::string_view text) {
  const auto blocks = blocks_of(text);
  if (blocks.empty()) return true;
  if (std::any_of(blocks.begin(), blocks.end(), [](const Block& b) { return b.entry; }))
    return true;
  // The first entry of all, cut off within its first line.
  return blocks.size() == 1 && head_line.starts_with(text.substr(blocks[0].begin));
}

std::optional<Torn> torn_tail(std::string_view text) {
  const auto blocks = blocks_of(text);
  if (blocks.empty() || blocks.back().closed) return std::nullopt;
  const auto& last = blocks.back();
  session::InputErrors errors;
  const bool readable = BlockReader(last, text, "", errors).read().has_value();
  if (readable && !last.opened) return std::nullopt;
  return Torn{last.begin, last.line};
}

Journal read(std::string_view text, std::string_view file) {
  Journal out;
  out.file = std::string(file);
  const auto refuse = [&](const char* what, const char* help) {
    auto e = session::at(file, text, {}, what, help);
    e.unreadable = true;
    out.errors.push_back(std::move(e));
    return out;
  };
  if (text.size() > largest_journal) {
    return refuse("a journal of more than 64 MiB", "begin a new one: --journal FILE");
  }
  if (!is_journal(text)) {
    return refuse("no journal: it holds no [[entry]]", "name a file that dampline log has written");
  }
  out.torn = torn_tail(text);
  for (const auto& block : blocks_of(text)) {
    if (out.torn && block.begin == out.torn->begin) break;
    if (auto entry = BlockReader(block, text, file, out.errors).read()) {
      out.entries.push_back(std::move(*entry));
    }
  }
  return out;
}

}  // namespace dampline::journal
