#pragma once

#include <dampline/scheduling/model.hpp>

namespace dampline::scheduling {

/// Arcs that keep the order in which a schedule hands its resources on, as rows by half, except
/// around the starts for which `is_free` is set ([shaw1998], on the partial order of a schedule).
/// The schedule itself keeps them all, and so does any schedule that moves as a whole.
[[nodiscard]] Flat<Flat<Model::Arc>> order_of(const Model& model, const Flat<int>& starts,
                                              const Flat<char>& is_free);

/// Starts that begin together in a schedule: about `many`, from the one that is `first` in time.
[[nodiscard]] Flat<char> free_stretch(const Model& model, const Flat<int>& starts, int first,
                                      int many);

}  // namespace dampline::scheduling
