// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/io/files.h"

#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstring>
#include <fstream>
#include <random>
#include <thread>

#include "core/io/project_file.h"
#include "tests/core/io/support.h"

using namespace sunspool;
namespace fs = std::filesystem;

namespace {

/// A folder of its own, gone at the end.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "sunspool-test-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    m_path = name;
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::permissions(m_path, fs::perms::owner_all, ignored);
    fs::remove_all(m_path, ignored);
  }
  const fs::path& path() const { return m_path; }
  std::vector<std::string> names() const {
    std::vector<std::string> result;
    for (const auto& entry : fs::directory_iterator(m_path)) result.push_back(entry.path().filename().string());
    std::sort(result.begin(), result.end());
    return result;
  }

 private:
  fs::path m_path;
};

/// A small file system in memory on a folder; not mounted when the system refuses.
class SmallDisk {
 public:
  explicit SmallDisk(const fs::path& at) : m_at(at) {
    m_mounted = ::mount("tmpfs", at.c_str(), "tmpfs", 0, "size=64k") == 0;
    if (!m_mounted) WARN("skipped: no tmpfs can be mounted here: " << std::strerror(errno));
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  ~SmallDisk() {
    if (m_mounted) ::umount(m_at.c_str());
  }
  bool isMounted() const { return m_mounted; }
  void makeReadOnly() const {
    REQUIRE(::mount("tmpfs", m_at.c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, "size=64k") == 0);
  }

 private:
  fs::path m_at;
  bool m_mounted = false;
};

/// Modes do not bind root: as long as this lives, root is nobody. Others stay who they are.
class AsNobody {
 public:
  AsNobody() {
    if (m_wasRoot) REQUIRE(::seteuid(kNobody) == 0);
  }
  AsNobody(const AsNobody&) = delete;
  AsNobody& operator=(const AsNobody&) = delete;
  ~AsNobody() {
    if (m_wasRoot && ::seteuid(0) != 0) std::abort();
  }

 private:
  static constexpr uid_t kNobody = 65534;
  const bool m_wasRoot = ::geteuid() == 0;
};

std::string bytesOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}
mode_t modeOf(const fs::path& path) {
  struct stat status {};
  REQUIRE(::stat(path.c_str(), &status) == 0);
  return status.st_mode & 07777U;
}

}  // namespace

TEST_CASE("What is written is read back", "[io][files]") {
  const Folder folder;
  const fs::path path = folder.path() / "panel.sunspool";
  const std::string bytes = std::string("zero \0 byte, \r\n, ", 17) + std::string(200000, 'x');
  REQUIRE(io::replaceFile(path, bytes));
  CHECK(io::readFile(path).value() == bytes);
  REQUIRE(io::replaceFile(path, ""));
  CHECK(io::readFile(path).value().empty());
  CHECK(folder.names() == std::vector<std::string>{"panel.sunspool"});
}

TEST_CASE("A new file is as open as the mask allows, an old one keeps its mode", "[io][files]") {
  const Folder folder;
  const fs::path path = folder.path() / "panel.sunspool";
  const mode_t before = ::umask(027);
  REQUIRE(io::replaceFile(path, "a"));
  ::umask(before);
  CHECK(modeOf(path) == 0640);
  REQUIRE(::chmod(path.c_str(), 0604) == 0);
  REQUIRE(io::replaceFile(path, "b"));
  CHECK(modeOf(path) == 0604);
  CHECK(bytesOf(path) == "b");
}

TEST_CASE("A symbolic link stays a link and its target is replaced", "[io][files]") {
  const Folder folder;
  const fs::path real = folder.path() / "real.sunspool";
  const fs::path link = folder.path() / "link.sunspool";
  REQUIRE(io::replaceFile(real, "old"));
  fs::create_symlink("real.sunspool", link);
  REQUIRE(io::replaceFile(link, "new"));
  CHECK(fs::is_symlink(link));
  CHECK(bytesOf(real) == "new");
}

TEST_CASE("What is not a regular file is neither read nor replaced", "[io][files][fault]") {
  const Folder folder;
  const fs::path pipe = folder.path() / "pipe";
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  const fs::path dead = folder.path() / "dead";
  fs::create_symlink("nowhere", dead);
  const fs::path inner = folder.path() / "inner";
  fs::create_directory(inner);
  for (const fs::path& path : {pipe, dead, inner, inner / ""}) {
    INFO(path);
    const auto written = io::replaceFile(path, "x");
    REQUIRE_FALSE(written);
    CHECK(written.error().code == ErrorCode::NotARegularFile);
    CHECK(written.error().where == path.string());
  }
  CHECK(io::readFile(pipe).error().code == ErrorCode::NotARegularFile);
  CHECK(io::readFile(inner).error().code == ErrorCode::NotARegularFile);
  CHECK(io::readFile(dead).error().code == ErrorCode::FileNotFound);
  CHECK(folder.names() == std::vector<std::string>{"dead", "inner", "pipe"});
}

TEST_CASE("A file that is not there and a folder that is not there are named", "[io][files][fault]") {
  const Folder folder;
  const auto read = io::readFile(folder.path() / "none");
  REQUIRE_FALSE(read);
  CHECK(read.error().code == ErrorCode::FileNotFound);
  CHECK_FALSE(read.error().detail.empty());
  const auto written = io::replaceFile(folder.path() / "none" / "panel.sunspool", "x");
  REQUIRE_FALSE(written);
  CHECK(written.error().code == ErrorCode::FolderMissing);
  CHECK(written.error().where == (folder.path() / "none").string());
}

TEST_CASE("A file larger than any project is not swallowed", "[io][files][fault]") {
  const Folder folder;
  const fs::path path = folder.path() / "huge";
  REQUIRE(io::replaceFile(path, "x"));
  fs::resize_file(path, io::kLargestFile_B + 1);  // sparse
  const auto read = io::readFile(path);
  REQUIRE_FALSE(read);
  CHECK(read.error().code == ErrorCode::FileUnreadable);
  CHECK(tests::factOf(read.error(), "largest") == static_cast<double>(io::kLargestFile_B));
}

TEST_CASE("A full disk leaves the old file and no rest", "[io][files][fault]") {
  const Folder folder;
  const SmallDisk disk(folder.path());
  if (!disk.isMounted()) return;
  const fs::path path = folder.path() / "panel.sunspool";
  const std::string old = io::writeDocument(model::firstPanel());
  REQUIRE(io::replaceFile(path, old));
  const auto written = io::replaceFile(path, std::string(200000, 'x'));
  REQUIRE_FALSE(written);
  CHECK(written.error().code == ErrorCode::DiskFull);
  CHECK(written.error().where == path.string());
  CHECK(tests::factOf(written.error(), "bytes") == 200000.0);
  CHECK(bytesOf(path) == old);
  CHECK(folder.names() == std::vector<std::string>{"panel.sunspool"});
  CHECK(io::replaceFile(path, old).has_value());  // and goes on once there is room
}

TEST_CASE("A write that stops half-way leaves the old file and no rest", "[io][files][fault]") {
  const Folder folder;
  const fs::path path = folder.path() / "panel.sunspool";
  REQUIRE(io::replaceFile(path, "old"));
  struct rlimit before {};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  const struct rlimit small { 10000, before.rlim_max };  // the kernel then writes 10000 bytes and refuses the rest
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
  const auto written = io::replaceFile(path, std::string(50000, 'x'));
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &before) == 0);
  std::signal(SIGXFSZ, handler);
  REQUIRE_FALSE(written);
  CHECK(written.error().code == ErrorCode::WriteFailed);
  CHECK(bytesOf(path) == "old");
  CHECK(folder.names() == std::vector<std::string>{"panel.sunspool"});
}

TEST_CASE("A folder one may not write into is named and its file left alone", "[io][files][fault]") {
  const Folder folder;
  const fs::path path = folder.path() / "panel.sunspool";
  REQUIRE(io::replaceFile(path, "old"));
  fs::permissions(path, fs::perms(0666));  // the file itself may be written
  fs::permissions(folder.path(), fs::perms(0555));
  {
    const AsNobody nobody;
    for (const char* name : {"panel.sunspool", "other.sunspool"}) {
      const auto written = io::replaceFile(folder.path() / name, "new");
      REQUIRE_FALSE(written);
      CHECK(written.error().code == ErrorCode::FolderReadOnly);
      CHECK(written.error().where == folder.path().string());
    }
  }
  CHECK(bytesOf(path) == "old");
}

TEST_CASE("A read-only disk is named and its file left alone", "[io][files][fault]") {
  const Folder folder;
  const SmallDisk disk(folder.path());
  if (!disk.isMounted()) return;
  const fs::path path = folder.path() / "panel.sunspool";
  REQUIRE(io::replaceFile(path, "old"));
  disk.makeReadOnly();
  for (const char* name : {"panel.sunspool", "other.sunspool"}) {
    const auto written = io::replaceFile(folder.path() / name, "new");
    REQUIRE_FALSE(written);
    CHECK(written.error().code == ErrorCode::FolderReadOnly);
    CHECK(written.error().where == folder.path().string());
  }
  CHECK(bytesOf(path) == "old");
}

TEST_CASE("A write-protected file is not replaced, in a folder one may write into", "[io][files][fault]") {
  const Folder folder;
  const fs::path path = folder.path() / "panel.sunspool";
  REQUIRE(io::replaceFile(path, "old"));
  REQUIRE(::chmod(path.c_str(), 0444) == 0);
  fs::permissions(folder.path(), fs::perms(0777));
  {
    const AsNobody nobody;
    const auto written = io::replaceFile(path, "new");
    REQUIRE_FALSE(written);
    CHECK(written.error().code == ErrorCode::WriteFailed);
    CHECK(written.error().where == path.string());
    CHECK(io::replaceFile(folder.path() / "other.sunspool", "new").has_value());
  }
  CHECK(bytesOf(path) == "old");
}

TEST_CASE("A file one may not read is told apart from one that is not there", "[io][files][fault]") {
  const Folder folder;
  const fs::path path = folder.path() / "panel.sunspool";
  REQUIRE(io::replaceFile(path, "old"));
  REQUIRE(::chmod(path.c_str(), 0000) == 0);
  fs::permissions(folder.path(), fs::perms(0777));
  const AsNobody nobody;
  CHECK(io::readFile(path).error().code == ErrorCode::FileUnreadable);
}

TEST_CASE("A process killed while it saves leaves the whole old or the whole new file", "[io][files][fault][slow]") {
  const unsigned used = tests::seed();
  INFO("seed " << used << ", set with SUNSPOOL_TEST_SEED");
  std::mt19937 random(used);
  const Folder folder;
  const fs::path path = folder.path() / "panel.sunspool";
  // Long enough that a kill finds a write half done now and then.
  const std::vector<std::string> texts{io::writeDocument(model::firstPanel()) + std::string(300000, ' '),
                                       io::writeDocument(tests::everyKey()) + std::string(100000, ' ')};
  REQUIRE(io::replaceFile(path, texts[0]));
  int rests = 0;
  for (int round = 0; round < 200; ++round) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      for (unsigned save = 1;; ++save) {
        if (!io::replaceFile(path, texts[save % 2])) ::_exit(1);
      }
    }
    std::this_thread::sleep_for(std::chrono::microseconds(200 + random() % 4000));
    ::kill(child, SIGKILL);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFSIGNALED(status));  // it had not given up by itself
    const std::string found = io::readFile(path).value();
    if (found != texts[0] && found != texts[1]) FAIL("round " << round << ": " << found.size() << " bytes");
    for (const std::string& name : folder.names()) {
      if (name == "panel.sunspool") continue;
      REQUIRE(name.starts_with(".sunspool-saving-"));
      ++rests;
      fs::remove(folder.path() / name);
    }
  }
  CHECK(rests > 0);  // otherwise no kill came in the middle, and this showed nothing
  CHECK(io::replaceFile(path, texts[0]).has_value());
}
