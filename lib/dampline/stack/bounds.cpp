#include <algorithm>

#include <dampline/stack/bounds.hpp>

namespace dampline::stack::kernel {

namespace {

// One lane of a state.
class Cells {
 public:
  Cells(const System& k, const double* y, int lane) : k_(&k), y_(y), lane_(lane) {}
  [[nodiscard]] double u(int i) const { return y_[i * k_->lanes + lane_]; }
  [[nodiscard]] double over(int i) const { return u(i) - k_->cap[i * k_->lanes + lane_]; }
  [[nodiscard]] double fibre(int i) const { return 1 / k_->inverse_dry[i * k_->lanes + lane_]; }

 private:
  const System* k_;
  const double* y_;
  int lane_;
};

// Water over saturation in the cells next to a face open to the air, as far as they are full, is
// dew: a film on that face. How many such cells there are at the left and at the right.
struct Dewed {
  int left = 0;
  int right = 0;
};
Dewed dewed(const System& k, const Cells& cells) {
  Dewed d;
  if (k.joint[0].kind == FaceKind::air) {
    while (d.left < k.layer[0].last && cells.over(d.left) > 0) ++d.left;
  }
  if (k.joint[k.joints - 1].kind == FaceKind::air) {
    const int most = k.cells - std::max(d.left, k.layer[k.layers - 1].first);
    while (d.right < most && cells.over(k.cells - 1 - d.right) > 0) ++d.right;
  }
  return d;
}

// A trace lies still until it is a film or the sheet has room for it.
void lay_film(System& k, double* y, int j, int lane, double water) {
  double& film = y[k.film_at(j) * k.lanes + lane];
  film += water;
  if (film <= gone) return;
  k.number_of(j, film_there)[lane] = 1;
  k.joint[j].film = true;
}

void bring_inside(System& k, double* y, int lane) {
  const int w = k.lanes;
  const Cells cells(k, y, lane);
  const auto u = [&](int i) -> double& { return y[i * w + lane]; };
  const Dewed dew = dewed(k, cells);
  const auto lay = [&](int i, int j) {
    lay_film(k, y, j, lane, cells.over(i) * cells.fibre(i));
    u(i) = k.cap[i * w + lane];
  };
  for (int i = 0; i < dew.left; ++i) lay(i, 0);
  for (int i = k.cells - dew.right; i < k.cells; ++i) lay(i, k.joints - 1);
  double owed = 0;  // kg/m2, below zero
  for (int l = 0; l < k.layers; ++l) {
    const Layer& s = k.layer[l];
    int fullest = s.first;
    for (int i = s.first; i < s.last; ++i) fullest = u(i) > u(fullest) ? i : fullest;
    double carried = 0;
    const auto pass = [&](int i) {
      const double wanted = u(i) + carried / cells.fibre(i);
      const double held = std::clamp(wanted, 0.0, k.cap[i * w + lane]);
      carried = (wanted - held) * cells.fibre(i);
      u(i) = held;
    };
    for (int i = s.first; i < s.last; ++i) pass(i);
    for (int i = s.last; carried != 0 && i-- > s.first;) pass(i);
    if (carried > 0) {
      lay_film(k, y, fullest - s.first < s.last - 1 - fullest ? l : l + 1, lane, carried);
    } else {
      owed += carried;
    }
  }
  for (int i = 0; i < k.cells && owed < 0; ++i) {
    const double held = std::max(0.0, u(i) + owed / cells.fibre(i));
    owed += (u(i) - held) * cells.fibre(i);
    u(i) = held;
  }
  y[k.out_at(k.joint[0].kind == FaceKind::sealed ? 1 : 0) * w + lane] += owed;
}

}  // namespace

double excess(const System& k, const double* y) {
  double worst = 0;
  for (int lane = 0; lane < k.lanes; ++lane) {
    const Cells cells(k, y, lane);
    const Dewed dew = dewed(k, cells);
    for (int l = 0; l < k.layers; ++l) {
      double highest = 0;
      double lowest = 0;
      double above = 0;  // kg/m2 over saturation, cells with room counted against it
      double dry = 0;
      for (int i = k.layer[l].first; i < k.layer[l].last; ++i) {
        if (i >= dew.left && i < k.cells - dew.right) highest = std::max(highest, cells.over(i));
        lowest = std::max(lowest, -cells.u(i));
        above += cells.over(i) * cells.fibre(i);
        dry += cells.fibre(i);
      }
      worst = std::max({worst, highest - std::max(0.0, above / dry), lowest});
    }
  }
  return worst;
}

void bring_inside(System& k, double* y) {
  for (int lane = 0; lane < k.lanes; ++lane) bring_inside(k, y, lane);
}

bool settle_film(System& k, double* y, int j, int lane) {
  const Joint& q = k.joint[j];
  const int w = k.lanes;
  double& film = y[k.film_at(j) * w + lane];
  double& there = k.number_of(j, film_there)[lane];
  const bool was_there = there != 0;
  if (film == 0 || (was_there && film > gone)) return false;
  const int cell = q.left < 0 ? q.right : (q.right < 0 || q.film_on_left ? q.left : q.right);
  const int c = cell * w + lane;
  const double u = y[c] + film * k.inverse_dry[c];
  // No room yet. A film below zero is taken from the sheet; bring_inside spreads it where the cell
  // is dry.
  if ((u > k.cap[c] || u < 0) && film >= 0) return false;
  y[c] = u;
  film = 0;
  there = 0;
  bool any = false;
  for (int i = 0; i < w; ++i) any = any || k.number_of(j, film_there)[i] != 0;
  k.joint[j].film = any;
  return was_there;
}

}  // namespace dampline::stack::kernel
