// Every hop, repeat and deadline of a polled line in plain C, as a baseline for the bench: the event model of the simulation, with
// the same generator (xoshiro128** 1.1), a word for each hop, and the counts of updates, losses in a row, repeats and trips.
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <math.h>
#include <time.h>

#define TRIP_AFTER 3

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

typedef struct {
  int first, end;
  double over_ps;
  long updates, lost, repeats, late, trips, in_a_row, last;
} Exchange;

static uint64_t *spoils;
static long events;

/* Whether a try is lost on one of its hops. */
static inline int lost(const Exchange *x) {
  for (int hop = x->first; hop < x->end; hop++) {
    events++;
    uint32_t word = next(), upper = spoils[hop] >> 32;
    if (word < upper || (word == upper && next() < (uint32_t)spoils[hop])) return 1;
  }
  return 0;
}

static inline int fails(Exchange *x, double begins_ps, double cycle_ps) {
  int is_lost = lost(x), is_late = begins_ps + x->over_ps > cycle_ps;
  if (is_late && !is_lost) x->late++;
  return is_lost || is_late;
}

int main(int argc, char **argv) {
  if (argc < 7) return 1;
  int stations = atoi(argv[1]), repeats = atoi(argv[4]);
  double cycle_ps = atof(argv[2]), frame_loss = atof(argv[3]), repeat_ps = atof(argv[5]);
  long cycles = atol(argv[6]);
  Exchange *line = calloc(stations, sizeof *line);
  int *failed = malloc(stations * sizeof *failed), hops = 0;
  spoils = malloc(sizeof *spoils * stations * (stations + 1));
  for (int i = 0; i < stations; i++) {
    double each = -expm1(log1p(-frame_loss) / (i + 1));
    line[i].first = hops;
    line[i].end = hops + 2 * (i + 1);
    line[i].over_ps = cycle_ps / 4;
    line[i].last = -2;
    while (hops < line[i].end) spoils[hops++] = (uint64_t)(each * 18446744073709551616.0);
  }
  struct timespec from, to;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &from);
  for (long cycle = 0; cycle < cycles; cycle++) {
    int count = 0, served = 0;
    for (int i = 0; i < stations; i++) {
      line[i].updates++;
      if (fails(&line[i], 0, cycle_ps)) failed[count++] = i;
    }
    for (int place = 0; place < repeats && served < count; place++) {
      Exchange *x = &line[failed[served]];
      x->repeats++;
      if (!fails(x, cycle_ps / 2 + place * repeat_ps, cycle_ps)) served++;
    }
    for (; served < count; served++) {
      Exchange *x = &line[failed[served]];
      x->in_a_row = x->last == cycle - 1 ? x->in_a_row + 1 : 1;
      x->last = cycle;
      x->lost++;
      if (x->in_a_row == TRIP_AFTER) x->trips++;
    }
  }
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &to);
  double seconds = (to.tv_sec - from.tv_sec) + (to.tv_nsec - from.tv_nsec) * 1e-9;
  long made = 0, all_lost = 0;
  for (int i = 0; i < stations; i++) made += line[i].repeats, all_lost += line[i].lost;
  printf("%.9e %ld %ld %ld\n", seconds, events, made, all_lost);
  return 0;
}
