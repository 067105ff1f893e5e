// Every hop, repeat and deadline of a polled line in a general event simulator in C++ (the core of ns-3, as Debian has it), as a
// baseline for the bench: an event is scheduled for each hop of a frame.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <deque>
#include <random>
#include <vector>
#include "ns3/core-module.h"

using namespace ns3;

static const int64_t kFramePs = 5760000, kHopPs = 500000;

class Controller {
 public:
  long events = 0, made = 0, lost = 0, late = 0;

  Controller(int stations, int64_t cycle_ps, double frame_loss, int repeats, long cycles)
      : stations_(stations), repeats_(repeats), cycles_(cycles), cycle_ps_(cycle_ps) {
    for (int at = 0; at < stations; at++) chances_.push_back(-std::expm1(std::log1p(-frame_loss) / (at + 1)));
  }

  void Cycle() {
    failed_.clear();
    station_ = repeated_ = 0;
    is_repeat_ = false;
    begin_ps_ = Simulator::Now().GetPicoSeconds();
    Try(0);
  }

 private:
  void Try(int station) {
    trying_ = station;
    passed_ = 0;
    Simulator::Schedule(PicoSeconds(kHopPs), &Controller::Hop, this);
  }

  void Hop() {
    events++;
    passed_++;
    if (draw_(bits_) < chances_[trying_]) return Done(true);
    const int runs = trying_ + 1;
    if (passed_ == 2 * runs) return Done(false);
    Simulator::Schedule(PicoSeconds(kHopPs + (passed_ == runs ? kFramePs : 0)), &Controller::Hop, this);
  }

  void Done(bool is_lost) {
    if (!is_repeat_) {
      if (is_lost) failed_.push_back(trying_);
      if (++station_ < stations_) return Try(station_);
      is_repeat_ = true;
    } else {
      made++;
      repeated_++;
      if (!is_lost) failed_.pop_front();
    }
    if (repeated_ < repeats_ && !failed_.empty()) return Try(failed_.front());
    lost += failed_.size();
    const int64_t left_ps = begin_ps_ + cycle_ps_ - Simulator::Now().GetPicoSeconds();
    if (left_ps < 0) late++;
    if (--cycles_ > 0) Simulator::Schedule(PicoSeconds(left_ps < 0 ? 0 : left_ps), &Controller::Cycle, this);
  }

  int stations_, repeats_, station_ = 0, repeated_ = 0, trying_ = 0, passed_ = 0;
  long cycles_;
  int64_t cycle_ps_, begin_ps_ = 0;
  bool is_repeat_ = false;
  std::vector<double> chances_;
  std::deque<int> failed_;
  std::mt19937_64 bits_{1};
  std::uniform_real_distribution<double> draw_{0, 1};
};

int main(int argc, char **argv) {
  if (argc < 7) return 1;
  Time::SetResolution(Time::PS);
  Controller controller(std::atoi(argv[1]), std::atof(argv[2]), std::atof(argv[3]), std::atoi(argv[4]), std::atol(argv[6]));
  Simulator::Schedule(PicoSeconds(0), &Controller::Cycle, &controller);
  const std::clock_t start = std::clock();
  Simulator::Run();
  const double seconds = double(std::clock() - start) / CLOCKS_PER_SEC;
  Simulator::Destroy();
  std::printf("%.9e %ld %ld %ld\n", seconds, controller.events, controller.made, controller.lost);
  return 0;
}
