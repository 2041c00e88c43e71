// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// Flux density of a source in free space.
struct SourceField {
  double br_T;  ///< away from the axis
  double bz_T;  ///< along +z

  SourceField& operator+=(SourceField other) {
    br_T += other.br_T;
    bz_T += other.bz_T;
    return *this;
  }
};

inline SourceField operator+(SourceField a, SourceField b) { return a += b; }
inline SourceField operator*(double factor, SourceField b) { return {factor * b.br_T, factor * b.bz_T}; }

}  // namespace coilpull
