// SPDX-License-Identifier: GPL-3.0-or-later

// Two windows on one project: the second looks, the first writes.

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <QDir>
#include <QFile>
#include <QLockFile>
#include <QTemporaryDir>
#include <catch2/catch.hpp>

#include "app/store/document_store.h"
#include "core/io/project_file.h"
#include "core/model/defaults.h"
#include "core/model/edits.h"

namespace sunspool::store {
namespace {

QString text(const char* words) { return QString::fromUtf8(words); }

struct Folder {
  QTemporaryDir dir;
  QString project = dir.filePath(QStringLiteral("panel.sunspool"));
  Folder() {
    QFile file(project);
    REQUIRE(file.open(QIODevice::WriteOnly));
    const std::string bytes = io::writeDocument(model::firstPanel());
    file.write(bytes.data(), static_cast<qint64>(bytes.size()));
  }
};

Edit pitch(double millimetre) {
  return [=](model::Document document) { return model::withPitch(std::move(document), millimetres(millimetre)); };
}

/// A process of its own that has the file and waits to be ended.
class Holder {
 public:
  explicit Holder(const QString& project) {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const QString lock = lockFileOf(project);
    m_process = ::fork();
    if (m_process == 0) {
      QLockFile file(lock);
      file.setStaleLockTime(0);
      const char got = file.tryLock(0) ? 'y' : 'n';
      if (::write(ends[1], &got, 1) != 1) ::_exit(1);
      for (;;) ::pause();
    }
    char got = 'n';
    REQUIRE(::read(ends[0], &got, 1) == 1);
    REQUIRE(got == 'y');
    ::close(ends[0]);
    ::close(ends[1]);
  }
  ~Holder() { kill(); }
  void kill() {
    if (m_process <= 0) return;
    ::kill(m_process, SIGKILL);
    ::waitpid(m_process, nullptr, 0);
    m_process = 0;
  }
  pid_t process() const { return m_process; }

 private:
  pid_t m_process = 0;
};

TEST_CASE("The second window on a project reads, and says who holds it", "[store][lock]") {
  const Folder folder;
  DocumentStore first(model::firstPanel()), second(model::firstPanel());
  REQUIRE(first.open(folder.project).has_value());
  CHECK_FALSE(first.isReadOnly());
  REQUIRE(second.open(folder.project).has_value());
  REQUIRE(second.isReadOnly());
  CHECK(second.readOnlyBecause()->code == ErrorCode::FileHeld);
  CHECK(QString::fromStdString(second.readOnlyBecause()->detail).contains(QString::number(::getpid())));

  REQUIRE(second.apply(pitch(30.0), text("Change the pitch")));
  const auto refused = second.save(folder.project);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().code == ErrorCode::FileHeld);
  CHECK(first.save(folder.project).has_value());
}

TEST_CASE("Under another name the second window writes", "[store][lock]") {
  const Folder folder;
  DocumentStore first(model::firstPanel()), second(model::firstPanel());
  REQUIRE(first.open(folder.project).has_value());
  REQUIRE(second.open(folder.project).has_value());
  const QString other = folder.dir.filePath(QStringLiteral("other.sunspool"));
  REQUIRE(second.save(other).has_value());
  CHECK_FALSE(second.isReadOnly());
  REQUIRE(second.save(other).has_value());
  const auto taken = first.save(other);
  REQUIRE_FALSE(taken.has_value());
  CHECK(taken.error().code == ErrorCode::FileHeld);
  CHECK(first.filePath() == folder.project);
}

TEST_CASE("Closing a project lets it go", "[store][lock]") {
  const Folder folder;
  DocumentStore second(model::firstPanel());
  {
    DocumentStore first(model::firstPanel());
    REQUIRE(first.open(folder.project).has_value());
    CHECK(QFile::exists(lockFileOf(folder.project)));
  }
  CHECK_FALSE(QFile::exists(lockFileOf(folder.project)));
  REQUIRE(second.open(folder.project).has_value());
  CHECK_FALSE(second.isReadOnly());
  REQUIRE(second.open(folder.project).has_value());  // once more by the same window
  CHECK_FALSE(second.isReadOnly());
  second.reset(model::firstPanel());
  CHECK_FALSE(QFile::exists(lockFileOf(folder.project)));
}

TEST_CASE("A project held by another process is read-only until that process has died", "[store][lock][fault]") {
  const Folder folder;
  Holder holder(folder.project);
  DocumentStore store(model::firstPanel());
  REQUIRE(store.open(folder.project).has_value());
  REQUIRE(store.isReadOnly());
  CHECK(QString::fromStdString(store.readOnlyBecause()->detail).contains(QString::number(holder.process())));
  holder.kill();
  REQUIRE(QFile::exists(lockFileOf(folder.project)));  // left behind, as after a crash
  REQUIRE(store.open(folder.project).has_value());
  CHECK_FALSE(store.isReadOnly());
  CHECK(store.save(folder.project).has_value());
}

TEST_CASE("A project in a folder that allows no writing opens without a lock", "[store][lock][fault]") {
  if (::geteuid() == 0) {
    WARN("root may write everywhere: not tried");
    return;
  }
  const Folder folder;
  REQUIRE(QFile::setPermissions(folder.dir.path(), QFile::ReadOwner | QFile::ExeOwner));
  DocumentStore store(model::firstPanel());
  CHECK(store.open(folder.project).has_value());
  CHECK_FALSE(store.isReadOnly());
  QFile::setPermissions(folder.dir.path(), QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
}

}  // namespace
}  // namespace sunspool::store
