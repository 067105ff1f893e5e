// Trials of a budget of eight terms in plain C, as a baseline for the bench: the same generator (xoshiro128** 1.1), the same
// shapes (two normal ones drawn as one, two rectangular, two triangular, two arcsine), each trial counted in one of 4096 bins.
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define BINS 4096

static uint32_t s[4] = {0x9e3779b9u, 0x243f6a88u, 0xb7e15162u, 0x93c467e3u};

static inline uint32_t next(void) {
  uint32_t five = s[1] * 5, word = ((five << 7) | (five >> 25)) * 9, shifted = s[1] << 9;
  s[2] ^= s[0];
  s[3] ^= s[1];
  s[1] ^= s[2];
  s[0] ^= s[3];
  s[2] ^= shifted;
  s[3] = (s[3] << 11) | (s[3] >> 21);
  return word;
}

/* Even between -1 and 1. */
static inline double even(void) { return ((int32_t)next() + 0.5) / 2147483648.0; }
static inline double unit(void) { return (next() + 0.5) / 4294967296.0; }

/* The ziggurat of 256 layers. */
static const double tail = 3.6541528853610088;
static double ends[257], width[256], height[257];
static int32_t sure[256];

static void layers(void) {
  double area = tail * exp(-tail * tail / 2) + sqrt(acos(-1) / 2) * erfc(tail / sqrt(2));
  ends[0] = area / exp(-tail * tail / 2);
  ends[1] = tail;
  for (int i = 2; i < 256; i++) ends[i] = sqrt(-2 * log(area / ends[i - 1] + exp(-ends[i - 1] * ends[i - 1] / 2)));
  ends[256] = 0;
  for (int i = 0; i < 256; i++) width[i] = ends[i] / 8388608.0, sure[i] = floor(ends[i + 1] / ends[i] * 8388608.0);
  for (int i = 0; i < 257; i++) height[i] = exp(-ends[i] * ends[i] / 2);
}

static double normal(void) {
  for (;;) {
    int32_t word = (int32_t)next();
    int layer = word & 255;
    int32_t steps = word >> 8;
    double x = (steps + 0.5) * width[layer];
    if ((steps ^ (steps >> 31)) < sure[layer]) return x;
    if (layer == 0) {
      for (;;) {
        double beyond = -log(unit()) / tail;
        if (-2 * log(unit()) > beyond * beyond) return steps < 0 ? -(tail + beyond) : tail + beyond;
      }
    }
    if (height[layer] + unit() * (height[layer + 1] - height[layer]) < exp(-x * x / 2)) return x;
  }
}

static inline double triangular(void) {
  double e = even();
  return e / (1 + sqrt(1 - fabs(e)));
}

static inline double arcsine(void) { return sin(even() * 1.5707963267948966); }

int main(int argc, char **argv) {
  long trials = argc > 1 ? atol(argv[1]) : 10000000;
  double reach = argc > 2 ? atof(argv[2]) : 1;
  static int32_t counts[BINS];
  double sum = 0, squares = 0, joint = sqrt(15.0 * 15.0 + 5.0 * 5.0), scale = BINS / (2 * reach);
  long outside = 0;
  layers();
  struct timespec from, to;
  clock_gettime(CLOCK_MONOTONIC, &from);
  for (long trial = 0; trial < trials; trial++) {
    double value = joint * normal() + 8 * even() + 3 * even() + 10 * triangular() + 6 * triangular() +
                   12 * arcsine() + 4 * arcsine();
    sum += value;
    squares += value * value;
    double place = (value + reach) * scale;
    if (place >= 0 && place < BINS) counts[(int)place]++;
    else outside++;
  }
  clock_gettime(CLOCK_MONOTONIC, &to);
  double seconds = (to.tv_sec - from.tv_sec) + (to.tv_nsec - from.tv_nsec) * 1e-9;
  printf("%.9e %.9e %ld %d\n", seconds / trials, sqrt(squares / trials), outside, counts[BINS / 2]);
  return 0;
}
