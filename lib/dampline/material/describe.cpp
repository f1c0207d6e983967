#include <algorithm>
#include <string>

#include <dampline/material/catalogue.hpp>
#include <dampline/material/classes.hpp>
#include <dampline/units/text.hpp>

namespace dampline::material {

using units::in_si;

namespace {

const char* const as_described = "as described";

// A label is met within about 4 %; a sheet measured by its owner within a gauge's 5 %; a Cobb test
// repeats within 5 to 10 %. All from memory.
constexpr double label_scatter = 0.04;
constexpr double gauge_scatter = 0.05;
constexpr double cobb_scatter = 0.10;

template <class Quantity>
Ranged<Quantity> given(Quantity value, double scatter) {
  return {value, value * (1 - scatter), value * (1 + scatter), as_described};
}

std::string thickness_text(units::Length l) {
  return units::fixed(units::in_millimetres(l), 2) + " mm";
}

// The class whose published Cobb range the value falls in; the bounds lie between those ranges.
Sizing sizing_for(units::Grammage cobb60) {
  const double g = units::in_grams_per_m2(cobb60);
  if (g < 26) return Sizing::hard;
  if (g < 47) return Sizing::internal;
  if (g < 150) return Sizing::soft;
  return Sizing::waterleaf;
}

class Filling {
 public:
  Filling(const Catalogue& catalogue, const Description& description)
      : classes_(catalogue.classes), d_(description) {}

  std::variant<Described, DescriptionError> run() {
    if (d_.base != nullptr) {
      stock() = *d_.base;
    } else if (!d_.grammage) {
      return DescriptionError{"a paper needs a grammage or the name of a stock",
                              "write grammage = \"300 g/m2\" or stock = \"...\""};
    }
    words();
    if (!classes()) {
      return DescriptionError{"no growth is known for " + std::string(word(stock().making)) +
                                  "-made paper of " + std::string(word(stock().furnish)),
                              "change making or furnish, or name the nearest stock"};
    }
    sheet();
    if (auto wrong = impossible(stock()); !wrong.empty()) {
      return DescriptionError{std::move(wrong), "check the units of what was measured"};
    }
    if (d_.base == nullptr) stock().name = made_up_name();
    return std::move(result_);
  }

 private:
  Stock& stock() { return result_.stock; }
  void used(std::string what) { result_.defaults_used.push_back(std::move(what)); }

  template <class Thing>
  void choose(Thing& to, const std::optional<Thing>& from, const char* key) {
    if (from) {
      to = *from;
    } else if (d_.base == nullptr) {
      used(std::string(key) + " = " + std::string(word(to)));
    }
  }

  void words() {
    choose(stock().furnish, d_.furnish, "furnish");
    choose(stock().making, d_.making, "making");
    if (!d_.sizing && d_.cobb60) {
      const Sizing fits = sizing_for(*d_.cobb60);
      if (d_.base == nullptr || fits != d_.base->sizing) {
        used("sizing = " + std::string(word(fits)) + ", from the Cobb value");
      }
      stock().sizing = fits;
    } else {
      choose(stock().sizing, d_.sizing, "sizing");
    }
  }

  // Numbers follow the words that are new; a base stock keeps what its own words gave it.
  bool classes() {
    Stock& s = stock();
    const Stock* base = d_.base;
    const bool sizing = base == nullptr || s.sizing != base->sizing;
    const bool making = base == nullptr || s.making != base->making;
    const bool furnish = base == nullptr || s.furnish != base->furnish;
    if (sizing) {
      if (!take_sizing(s, classes_)) return false;
      if (!d_.cobb60 && s.sizing != Sizing::waterleaf) {
        used("cobb = " + units::text(s.cobb60.value) + ", usual for " +
             std::string(word(s.sizing)) + " size");
      }
      used("levels off in the tub at " + units::text(s.accessible.value) + ", usual for " +
           std::string(word(s.sizing)) + " size");
    }
    if (making && !take_making(s, classes_)) return false;
    if (furnish && !take_furnish(s, classes_)) return false;
    if (making || furnish) {
      if (!take_growth(s, classes_)) return false;
      used("growth of " + growth_of(s, classes_)->name);
    }
    return true;
  }

  void sheet() {
    Stock& s = stock();
    if (d_.cobb60) s.cobb60 = given(*d_.cobb60, cobb_scatter);
    const units::Grammage before = s.grammage.value;
    if (d_.grammage) s.grammage = given(*d_.grammage, label_scatter);
    if (d_.thickness) {
      s.thickness = given(*d_.thickness, gauge_scatter);
    } else if (d_.base == nullptr) {
      if (take_thickness(s, classes_)) {
        used("thickness = " + thickness_text(s.thickness.value) + ", from the usual density of " +
             std::string(word(s.making)) + "-made paper");
      }
    } else if (d_.grammage && in_si(before) > 0) {
      const double ratio = in_si(s.grammage.value) / in_si(before);
      s.thickness.value *= ratio;
      s.thickness.low *= ratio;
      s.thickness.high *= ratio;
      used("thickness = " + thickness_text(s.thickness.value) + ", at the density of \"" + s.name +
           "\"");
    }
  }

  std::string made_up_name() {
    const Stock& s = stock();
    std::string size = std::string(word(s.sizing));
    if (s.sizing != Sizing::waterleaf) size += " size";
    return std::string(word(s.making)) + "-made " + std::string(word(s.furnish)) + ", " + size +
           ", " + units::text(s.grammage.value);
  }

  const Classes& classes_;
  const Description& d_;
  Described result_;
};

}  // namespace

std::variant<Described, DescriptionError> describe(const Catalogue& catalogue,
                                                   const Description& description) {
  return Filling(catalogue, description).run();
}

}  // namespace dampline::material
