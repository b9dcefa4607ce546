// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Whole files in and out. The only place that touches the disk.

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace sunspool::io {

/// Projects and catalogues are a few kilobytes; more than this is not one of ours.
inline constexpr std::size_t kLargestFile_B = 64U << 20U;

/// All bytes of a regular file. `where` is the path.
/// FileNotFound, NotARegularFile, FileUnreadable (detail: the system's message; fact "largest" when it is too large).
Result<std::string> readFile(const std::filesystem::path& path);

/// Replaces the file by these bytes, or makes it: at every moment, whatever happens, the path holds the complete old
/// or the complete new bytes. A temporary file `.sunspool-saving-<process>-<number>` in the same folder is written,
/// flushed to the disk, and renamed over the path; then the folder is flushed. Mode and owner of an existing file
/// are kept; a symbolic link stays one and its target is replaced. A process killed on the way leaves the temporary
/// file behind; nothing else does.
/// Errors, all with the old file untouched; `where` is the path, or the folder where that is at fault; detail the
/// system's message:
///   NotARegularFile  a folder, device or dead link stands there
///   FolderMissing, FolderReadOnly
///   DiskFull         fact "bytes": how many were to be written
///   WriteFailed      anything else, the file itself being write-protected included. Only when the very last step,
///                    flushing the folder, failed do the new bytes stand there already.
Result<Done> replaceFile(const std::filesystem::path& path, std::string_view bytes);

}  // namespace sunspool::io
