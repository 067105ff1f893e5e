// Demands of many axes in plain C, as a baseline for the bench: the tool's state on a cubic, the torque through a train of
// two stages with friction and an efficiency in both directions, the highest of it and its square over time. Arguments: a
// file with the trains (8 numbers a stage) and behind them the pieces of the motions (5 numbers each), how many axes, how
// many pieces each has, and 1 for one instant on each piece, at its start, or 20 for those of a quadrature: four parts of
// each, three nodes and two ends. Prints the time of the axis in the middle, and the sums of both results over all axes.
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { stages = 2, parts = 4, nodes = 3 };

typedef struct { double ratio, inertia, constant, coulomb, viscous, pass, driving, driven; } Stage;
typedef struct { Stage stage[stages]; } Train;
typedef struct { double duration, c[4]; } Piece;
typedef struct { double position, velocity, acceleration; } State;

static inline State state_of(const Piece *piece, double t) {
  double p = 0, p1 = 0, p2 = 0;
  for (int power = 3; power >= 0; power--) {
    p2 = p2 * t + p1;
    p1 = p1 * t + p;
    p = p * t + piece->c[power];
  }
  return (State){p, p1, 2 * p2};
}

static inline double going_of(State tool) {
  double way = tool.velocity != 0 ? tool.velocity : tool.acceleration;
  return way > 0 ? 1 : way < 0 ? -1 : 0;
}

static inline double torque_of(const Train *train, State tool, double going) {
  double load = 0, inertial = 0;
  for (int at = 0; at < stages; at++) {
    const Stage *stage = &train->stage[at];
    double speed = stage->ratio * tool.velocity;
    load = (load + (stage->constant + (going * stage->coulomb + stage->viscous * speed))) * stage->pass;
    inertial = (inertial + stage->inertia * stage->ratio * tool.acceleration) * stage->pass;
    double through = going * (load + inertial);
    load += going * (fmax(through / stage->driving, through * stage->driven) - through);
  }
  return load + inertial;
}

static int by_size(const void *one, const void *other) {
  double a = *(const double *)one, b = *(const double *)other;
  return (a > b) - (a < b);
}

int main(int argc, char **argv) {
  if (argc != 5) return 2;
  int axes = atoi(argv[2]), pieces = atoi(argv[3]), instants = atoi(argv[4]);
  size_t all = (size_t)axes * pieces;
  Train *trains = malloc(axes * sizeof *trains);
  Piece *motions = malloc(all * sizeof *motions);
  double *taken = malloc(axes * sizeof *taken), peaks = 0, sums = 0;
  FILE *file = fopen(argv[1], "rb");
  if (file == NULL || fread(trains, sizeof *trains, axes, file) != (size_t)axes) return 1;
  if (fread(motions, sizeof *motions, all, file) != all) return 1;
  const double node[nodes] = {-sqrt(0.6), 0, sqrt(0.6)}, weight[nodes] = {5 / 9.0, 8 / 9.0, 5 / 9.0};
  // The first time is not counted.
  for (int time = 0; time < 2; time++) {
    peaks = sums = 0;
    for (int axis = 0; axis < axes; axis++) {
      struct timespec from, to;
      clock_gettime(CLOCK_MONOTONIC, &from);
      const Train *train = &trains[axis];
      double peak = 0, squared = 0;
      for (int at = 0; at < pieces; at++) {
        const Piece *piece = &motions[(size_t)axis * pieces + at];
        if (instants == 1) {
          State tool = state_of(piece, 0);
          double torque = torque_of(train, tool, going_of(tool));
          peak = fmax(peak, fabs(torque));
          squared += torque * torque * piece->duration;
        } else {
          for (int part = 0; part < parts; part++) {
            double begin = piece->duration * part / parts, end = piece->duration * (part + 1) / parts;
            double half = (end - begin) / 2, middle = (begin + end) / 2;
            double going = going_of(state_of(piece, middle));
            for (int n = 0; n < nodes; n++) {
              double torque = torque_of(train, state_of(piece, middle + half * node[n]), going);
              peak = fmax(peak, fabs(torque));
              squared += half * weight[n] * torque * torque;
            }
            peak = fmax(peak, fabs(torque_of(train, state_of(piece, begin), going)));
            peak = fmax(peak, fabs(torque_of(train, state_of(piece, end), going)));
          }
        }
      }
      peaks += peak;
      sums += squared;
      clock_gettime(CLOCK_MONOTONIC, &to);
      taken[axis] = (to.tv_sec - from.tv_sec) + (to.tv_nsec - from.tv_nsec) * 1e-9;
    }
  }
  qsort(taken, axes, sizeof *taken, by_size);
  printf("%.9e %.17g %.17g\n", taken[axes / 2], peaks, sums);
  return 0;
}
