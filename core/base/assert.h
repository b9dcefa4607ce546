// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace sunspool {

/// Called with the text of a broken invariant before the program stops, e.g. to write a recovery copy.
using AssertHandler = void (*)(const char* condition, const char* why, const char* file, int line);
void setAssertHandler(AssertHandler handler);
[[noreturn]] void assertFailed(const char* condition, const char* why, const char* file, int line);

}  // namespace sunspool

/// Active in release builds too: a stop with a recovery file beats a silently wrong tube length.
#define SUNSPOOL_ASSERT(condition, why) \
  ((condition) ? static_cast<void>(0) : ::sunspool::assertFailed(#condition, why, __FILE__, __LINE__))
