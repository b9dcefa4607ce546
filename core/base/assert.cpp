// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/assert.h"

#include <cstdio>
#include <cstdlib>

namespace sunspool {
namespace {
AssertHandler g_handler = nullptr;
}

void setAssertHandler(AssertHandler handler) { g_handler = handler; }

void assertFailed(const char* condition, const char* why, const char* file, int line) {
  std::fprintf(stderr, "sunspool: broken invariant: %s (%s) at %s:%d\n", why, condition, file, line);
  if (g_handler != nullptr) g_handler(condition, why, file, line);
  std::abort();
}

}  // namespace sunspool
