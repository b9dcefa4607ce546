// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <optional>
#include <system_error>

namespace sunspool::io {
namespace {

namespace fs = std::filesystem;

std::string systemMessage(int number) { return std::generic_category().message(number); }

/// Closes what it opened, removes what was not kept.
class Descriptor {
 public:
  explicit Descriptor(int descriptor) : m_descriptor(descriptor) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close(); }
  bool isOpen() const { return m_descriptor >= 0; }
  int number() const { return m_descriptor; }
  /// 0, or the error number: some file systems report a full disk only here.
  int close() {
    if (m_descriptor < 0) return 0;
    const int result = ::close(m_descriptor);
    m_descriptor = -1;
    return result == 0 || errno == EINTR ? 0 : errno;
  }

 private:
  int m_descriptor;
};

class TemporaryFile {
 public:
  explicit TemporaryFile(fs::path path) : m_path(std::move(path)) {}
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (!m_path.empty()) ::unlink(m_path.c_str());
  }
  const fs::path& path() const { return m_path; }
  void keep() { m_path.clear(); }

 private:
  fs::path m_path;
};

Error fileError(ErrorCode code, const fs::path& where, int number) {
  return {code, where.string(), systemMessage(number), {}};
}

Error writeError(const fs::path& path, int number, std::size_t bytes) {
  if (number == ENOSPC || number == EDQUOT) {
    return {ErrorCode::DiskFull,
            path.string(),
            systemMessage(number),
            {{"bytes", static_cast<double>(bytes), Dimension::Count}}};
  }
  return fileError(ErrorCode::WriteFailed, path, number);
}

Error folderError(const fs::path& folder, const fs::path& path, int number, std::size_t bytes) {
  if (number == ENOENT || number == ENOTDIR) return fileError(ErrorCode::FolderMissing, folder, number);
  if (number == EACCES || number == EPERM || number == EROFS) {
    return fileError(ErrorCode::FolderReadOnly, folder, number);
  }
  return writeError(path, number, bytes);
}

/// 0, or the error number.
int writeAll(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    if (written == 0) return ENOSPC;  // no progress and no reason: never loop on it
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

/// What stands at the path: nothing, or the status of a regular file with links followed.
struct Target {
  fs::path path;  ///< with links resolved
  std::optional<struct stat> status;
};
Result<Target> targetOf(const fs::path& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) {
    if (!S_ISREG(status.st_mode)) return Error{ErrorCode::NotARegularFile, path.string(), {}, {}};
    std::error_code code;
    const fs::path resolved = fs::canonical(path, code);
    if (code) return fileError(ErrorCode::WriteFailed, path, code.value());
    if (::faccessat(AT_FDCWD, resolved.c_str(), W_OK, AT_EACCESS) != 0 && errno != EROFS)
      return fileError(ErrorCode::WriteFailed, path, errno);
    return Target{resolved, status};
  }
  if (::lstat(path.c_str(), &status) == 0) return Error{ErrorCode::NotARegularFile, path.string(), {}, {}};
  return Target{path, std::nullopt};
}

fs::path folderOf(const fs::path& path) { return path.has_parent_path() ? path.parent_path() : fs::path("."); }

/// A file that did not exist before; the path tells which number was free.
struct Opened {
  fs::path path;
  int descriptor = -1;
  int error = 0;  ///< why it could not be opened
};
Opened openTemporary(const fs::path& folder) {
  constexpr int kMostTries = 1000;
  constexpr mode_t kMode = 0644;
  for (int number = 0; number < kMostTries; ++number) {
    const fs::path path = folder / (".sunspool-saving-" + std::to_string(::getpid()) + "-" + std::to_string(number));
    const int descriptor = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, kMode);
    const int error = errno;
    if (descriptor >= 0) return {path, descriptor, 0};
    if (error != EEXIST) return {path, -1, error};
  }
  return {folder, -1, EEXIST};
}

/// 0, or the error number. Owner as far as the system lets us: a failure there must not lose the save.
int takeOver(int descriptor, const struct stat& status) {
  struct stat own {};
  if (::fstat(descriptor, &own) == 0 && (own.st_uid != status.st_uid || own.st_gid != status.st_gid)) {
    if (::fchown(descriptor, status.st_uid, status.st_gid) != 0) errno = 0;
  }
  return ::fchmod(descriptor, status.st_mode & 07777U) == 0 ? 0 : errno;
}

/// 0, or the error number. File systems that cannot flush a folder say EINVAL.
int flushFolder(const fs::path& folder) {
  const Descriptor descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!descriptor.isOpen()) return errno;
  if (::fsync(descriptor.number()) == 0 || errno == EINVAL || errno == ENOTSUP) return 0;
  return errno;
}

}  // namespace

Result<std::string> readFile(const fs::path& path) {
  // O_NONBLOCK: a pipe without a writer must not hang us before we see that it is one.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (!file.isOpen()) {
    const bool absent = errno == ENOENT || errno == ENOTDIR;
    return fileError(absent ? ErrorCode::FileNotFound : ErrorCode::FileUnreadable, path, errno);
  }
  struct stat status {};
  if (::fstat(file.number(), &status) != 0) return fileError(ErrorCode::FileUnreadable, path, errno);
  if (!S_ISREG(status.st_mode)) return Error{ErrorCode::NotARegularFile, path.string(), {}, {}};
  std::string bytes;
  std::string block(1U << 16U, '\0');
  while (bytes.size() <= kLargestFile_B) {
    const ssize_t got = ::read(file.number(), block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return fileError(ErrorCode::FileUnreadable, path, errno);
    if (got == 0) return bytes;
    bytes.append(block, 0, static_cast<std::size_t>(got));
  }
  Error error = fileError(ErrorCode::FileUnreadable, path, EFBIG);
  error.facts = {{"largest", static_cast<double>(kLargestFile_B), Dimension::Count}};
  return error;
}

Result<Done> replaceFile(const fs::path& path, std::string_view bytes) {
  if (!path.has_filename()) return Error{ErrorCode::NotARegularFile, path.string(), {}, {}};
  const Result<Target> target = targetOf(path);
  if (!target) return target.error();
  const fs::path folder = folderOf(target->path);
  const Opened opened = openTemporary(folder);
  if (opened.descriptor < 0) return folderError(folder, path, opened.error, bytes.size());
  Descriptor file(opened.descriptor);
  TemporaryFile temporary(opened.path);
  if (target->status) {
    if (const int number = takeOver(file.number(), *target->status)) return writeError(path, number, bytes.size());
  }
  if (const int number = writeAll(file.number(), bytes)) return writeError(path, number, bytes.size());
  if (::fsync(file.number()) != 0) return writeError(path, errno, bytes.size());
  if (const int number = file.close()) return writeError(path, number, bytes.size());
  if (::rename(temporary.path().c_str(), target->path.c_str()) != 0) return writeError(path, errno, bytes.size());
  temporary.keep();
  if (const int number = flushFolder(folder)) return writeError(path, number, bytes.size());
  return Done{};
}

}  // namespace sunspool::io
