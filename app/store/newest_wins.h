// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Work off the window's thread where only the newest question matters: one job runs, one waits, later ones replace
// the waiting one. A running job is never cut short, so that a fast drag still sees pictures on the way.

#include <QMetaObject>
#include <QObject>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

#include "app/store/background.h"

namespace sunspool::store {

/// One worker thread of its own. (The standard library's thread rather than a pool of Qt's: the thread sanitizer
/// sees its locks.)
template <class Answer>
class NewestWins {
 public:
  using Job = std::function<Answer()>;
  using Deliver = std::function<void(Answer)>;

  /// @param deliver called on the thread this was made on, in the order of submission; an answer that waits for
  ///   delivery gives way to a newer one
  explicit NewestWins(Deliver deliver) : m_deliver(std::move(deliver)), m_thread([this] { work(); }) {}
  ~NewestWins() {
    {
      const std::lock_guard lock(m_mutex);
      m_stopping = true;
      m_pending.reset();
    }
    m_wake.notify_all();
    m_thread.join();
  }
  NewestWins(const NewestWins&) = delete;
  NewestWins& operator=(const NewestWins&) = delete;

  /// @param job pure; runs on the worker
  void submit(Job job) {
    {
      const std::lock_guard lock(m_mutex);
      m_pending = std::move(job);
    }
    m_wake.notify_all();
  }
  /// A job runs or waits, or its answer is not delivered yet.
  bool isBusy() const {
    const std::lock_guard lock(m_mutex);
    return m_running || m_pending || m_finished;
  }
  /// Waits until nothing runs or waits; what is done is delivered before this returns.
  void finish() {
    while (isBusy()) {
      {
        std::unique_lock lock(m_mutex);
        m_idle.wait(lock, [this] { return !m_running && !m_pending; });
      }
      deliverFinished();
    }
  }

 private:
  void work() {
    stepBack();
    std::unique_lock lock(m_mutex);
    for (;;) {
      m_wake.wait(lock, [this] { return m_stopping || m_pending; });
      if (m_stopping) return;
      const Job job = *std::exchange(m_pending, std::nullopt);
      m_running = true;
      lock.unlock();
      Answer answer = job();
      lock.lock();
      m_finished = std::move(answer);
      m_running = false;
      m_idle.notify_all();
      QMetaObject::invokeMethod(
          &m_receiver, [this] { deliverFinished(); }, Qt::QueuedConnection);
    }
  }
  void deliverFinished() {
    std::optional<Answer> answer;
    {
      const std::lock_guard lock(m_mutex);
      answer = std::exchange(m_finished, std::nullopt);
    }
    if (answer) m_deliver(std::move(*answer));
  }

  Deliver m_deliver;
  QObject m_receiver;  ///< lives on the thread that made this
  mutable std::mutex m_mutex;
  std::condition_variable m_wake, m_idle;
  std::optional<Job> m_pending;
  std::optional<Answer> m_finished;
  bool m_running = false;
  bool m_stopping = false;
  std::thread m_thread;  ///< last: starts when all else is there
};

}  // namespace sunspool::store
