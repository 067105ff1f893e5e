// The closed forms of a polled line in plain C, as a baseline for the bench: for each station two frame lengths, two
// times on the line, the way there (all cables and stations before it) and the exchange; then the cycle and its parts.
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double max2(double a, double b) { return a > b ? a : b; }

int main(int argc, char **argv) {
  int stations = argc > 1 ? atoi(argv[1]) : 44;
  long cycles = argc > 2 ? atol(argv[2]) : 100000;
  double least = 512, overhead = 224, preamble = 64, gap = 96, rate = 1e8, delay = 5.56e-9;
  double *length = malloc(stations * sizeof *length), *forwarding = malloc(stations * sizeof *forwarding);
  for (int i = 0; i < stations; i++) { length[i] = 0.5 + 0.01 * i; forwarding[i] = 4e-7; }
  volatile double kept = 0;
  struct timespec from, to;
  clock_gettime(CLOCK_MONOTONIC, &from);
  for (long cycle = 0; cycle < cycles; cycle++) {
    double payload = 192 + (cycle & 7), turnaround = 3.2e-6, exchanges = 0, longest = 0, there = 0;
    for (int i = 0; i < stations; i++) {
      double c = 0, f = 0;
      for (int j = 0; j <= i; j++) c += length[j] * delay;
      for (int j = 0; j < i; j++) f += forwarding[j];
      there = c + f;
      double command = (max2(least, overhead + payload) + preamble + gap) / rate;
      double answer = (max2(least, overhead + payload + 32) + preamble + gap) / rate;
      double turn = command + answer + turnaround + there + there;
      exchanges += turn;
      longest = max2(longest, turn);
    }
    double lone = (least + preamble + gap) / rate;
    kept = lone + exchanges + 2 * longest + lone + (4096 + preamble + gap) / rate;
  }
  clock_gettime(CLOCK_MONOTONIC, &to);
  printf("%.9e %.17g\n", ((to.tv_sec - from.tv_sec) + (to.tv_nsec - from.tv_nsec) * 1e-9) / cycles, kept);
  return 0;
}
