// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store/background.h"

#ifdef __linux__
#include <sys/resource.h>
#endif

namespace sunspool::store {

void stepBack() {
#ifdef __linux__
  constexpr int kBehindTheWindow = 10;  // nice value; on Linux it is one of the thread, not of the program
  (void)setpriority(PRIO_PROCESS, 0, kBehindTheWindow);
#endif
}

}  // namespace sunspool::store
