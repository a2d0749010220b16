// Stops or fails the program at any one of its system calls that change a disk.
#pragma once

namespace coeval::publishing {

// The `at`-th call from now on (1: the next) fails with `error`, or, where that is 0, the process dies before it.
// Calls are openat with O_CREAT, mkdirat, write, renameat, renameat2, unlinkat, fsync, fchown and fchmod; a write that
// dies is half done.
void set_fault(int at, int error);
void clear_fault();
[[nodiscard]] int calls_seen();

} // namespace coeval::publishing
