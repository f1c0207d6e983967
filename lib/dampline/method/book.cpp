#include <algorithm>

#include <dampline/method/book.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::method {

namespace {

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string folded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ' && c != '-' && c != '_' && c != ',') out += small(c);
  }
  return out;
}

}  // namespace

Book joined(Book own, const Book& usual) {
  Book book = std::move(own);
  const Book first = book;
  for (const Method& m : usual.methods) {
    if (find_method(first, m.name) == nullptr) book.methods.push_back(m);
  }
  return book;
}

const Method* find_method(const Book& book, std::string_view name) {
  const std::string wanted = folded(name);
  for (const Method& m : book.methods) {
    if (folded(m.name) == wanted) return &m;
  }
  for (const Method& m : book.methods) {
    for (const std::string& word : m.also) {
      if (folded(word) == wanted) return &m;
    }
  }
  return nullptr;
}

std::vector<std::string> similar_methods(const Book& book, std::string_view name) {
  const std::string wanted = folded(name).substr(0, 64);
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const Method& m : book.methods) {
    const std::string own = folded(m.name);
    const std::size_t distance = units::edit_distance(wanted, own);
    const bool contains = wanted.size() >= 3 && own.find(wanted) != std::string::npos;
    if (contains || distance <= std::max<std::size_t>(1, wanted.size() / 3)) {
      near.emplace_back(contains ? 0 : distance, m.name);
    }
  }
  std::stable_sort(near.begin(), near.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (auto& [distance, own] : near) names.push_back(std::move(own));
  if (names.size() > 3) names.resize(3);
  return names;
}

std::vector<Stage> stages_for(const Method& method, const material::Stock& stock) {
  std::vector<Stage> stages;
  for (const StageRule& rule : method.stages) {
    stages.push_back(rule.stage);
    stages.back().duration = rule.duration.at(static_cast<std::size_t>(stock.sizing));
  }
  return stages;
}

bool exchanges_water(const Stage& stage) {
  if (needs_hands(stage) || uses_tub(stage)) return true;
  if (units::in_si(stage.film) > 0 || stage.film_share > units::Moisture(0)) return true;
  const Layout layout = layout_of(stage);
  return std::any_of(layout.layers.begin(), layout.layers.end(), [](const Piled& p) {
    return p.piece != Piece::sheet && p.piece != Piece::like;
  });
}

Parts parts_of(std::vector<Stage> stages) {
  const auto last = std::find_if(stages.rbegin(), stages.rend(), exchanges_water).base();
  Parts parts;
  parts.rest.assign(last, stages.end());
  stages.erase(last, stages.end());
  parts.wetting = std::move(stages);
  return parts;
}

units::Duration length_of(std::span<const Stage> stages) {
  units::Duration all{};
  for (const Stage& s : stages) all += s.duration;
  return all;
}

units::Duration hands_time(std::span<const Stage> stages) {
  units::Duration all{};
  for (const Stage& s : stages) {
    if (needs_hands(s)) all += s.duration;
  }
  return all;
}

bool any_in_tub(std::span<const Stage> stages) {
  return std::any_of(stages.begin(), stages.end(), uses_tub);
}

}  // namespace dampline::method
