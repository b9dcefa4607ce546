// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Work off the window's thread where only the newest question matters: one job runs, one waits, later ones replace
// the waiting one. A running job is never cut short, so that a fast drag still sees pictures on the way.

#include <QMetaObject>
#include <QMutex>
#include <QMutexLocker>
#include <QObject>
#include <QThreadPool>
#include <functional>
#include <optional>
#include <utility>

namespace sunspool::store {

template <class Answer>
class NewestWins {
 public:
  using Job = std::function<Answer()>;
  using Deliver = std::function<void(Answer)>;

  /// @param deliver called on the thread this was made on, in the order of submission
  explicit NewestWins(Deliver deliver) : m_deliver(std::move(deliver)) { m_pool.setMaxThreadCount(1); }
  ~NewestWins() {
    m_pending.reset();
    m_pool.waitForDone();
  }
  NewestWins(const NewestWins&) = delete;
  NewestWins& operator=(const NewestWins&) = delete;

  /// @param job pure; runs on the worker
  void submit(Job job) {
    m_pending = std::move(job);
    startPending();
  }
  bool isBusy() const { return m_running || m_pending.has_value(); }
  /// Waits until nothing runs or waits; what is done is delivered before this returns.
  void finish() {
    while (isBusy()) {
      m_pool.waitForDone();
      takeFinished();
    }
  }

 private:
  void startPending() {
    if (m_running || !m_pending) return;
    m_running = true;
    m_pool.start([this, job = *std::exchange(m_pending, std::nullopt)] {
      Answer answer = job();
      {
        const QMutexLocker lock(&m_mutex);
        m_finished = std::move(answer);
      }
      QMetaObject::invokeMethod(
          &m_receiver, [this] { takeFinished(); }, Qt::QueuedConnection);
    });
  }
  void takeFinished() {
    std::optional<Answer> answer;
    {
      const QMutexLocker lock(&m_mutex);
      answer = std::exchange(m_finished, std::nullopt);
    }
    if (!answer) return;  // finish() was here first
    m_running = false;
    startPending();
    m_deliver(std::move(*answer));
  }

  Deliver m_deliver;
  QObject m_receiver;
  std::optional<Job> m_pending;
  bool m_running = false;
  QMutex m_mutex;
  std::optional<Answer> m_finished;
  QThreadPool m_pool;
};

}  // namespace sunspool::store
