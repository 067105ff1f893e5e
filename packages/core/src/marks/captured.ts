// Whether every mark is caught, where it is looked for, and what runs on when marks are lost.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { BudgetOf } from './budget-of.ts';
import {
  brakingWay,
  closestEdges,
  closestMarks,
  closestStray,
  lostMarkTime,
  lostMarkWeb,
  rearmSpeed,
  runOn,
  sharedRearm,
  windowAllowed,
  windowNeeded,
} from './calc/caught.ts';
import { countOf, noneOf, type PlacedMark } from './mark.ts';

export interface Captured {
  readonly mark: PlacedMark;
  /** How far a mark may be from its place. */
  readonly wanders: Value<Quantity<'m'>>;
  /** Nothing where no capture is told. */
  readonly caught: Caught | undefined;
  readonly window: Window | undefined;
  readonly lost: Lost | undefined;
}

export interface Caught {
  /** Time until every capture of the axis is armed again. */
  readonly rearm: Value<Quantity<'s'>>;
  /** The closest that edges may follow each other, and the closest that they do. */
  readonly closest: Value<Quantity<'m'>>;
  readonly spacing: Value<Quantity<'m'>>;
  readonly highestSpeed: Value<Quantity<'m/s'>>;
}

export interface Window {
  readonly width: Value<Quantity<'m'>>;
  readonly needed: Value<Quantity<'m'>>;
  /** Nothing where the file does not say how far it is to the next print. */
  readonly allowed: Value<Quantity<'m'>> | undefined;
}

export interface Lost {
  readonly noticed: Value<Quantity<'s'>>;
  readonly noticedWeb: Value<Quantity<'m'>>;
  readonly stopWeb: Value<Quantity<'m'>>;
  readonly runOn: Value<Quantity<'m'>>;
  readonly allowed: Value<Quantity<'m'>> | undefined;
}

export function capturedOf({ mark, known }: BudgetOf): Captured {
  const { said } = mark;
  // A mark in register is within what its budget needs.
  const wanders = said.wanders ?? given({ known }, (all) => all.known.needed);
  return {
    mark,
    wanders,
    caught: said.capture && caughtOf(mark, wanders),
    window: said.window && windowOf(mark, wanders),
    lost: said.lost && lostOf(mark),
  };
}

function caughtOf(mark: PlacedMark, e: Value<Quantity<'m'>>): Caught {
  const { said, path, name, speed } = mark;
  const { stray, length } = said;
  const once = said.capture!.rearm ?? missing(`${path}.capture.rearm`, 'absent', 'a time', '2 ms');
  const atOnce =
    said.capture!.at_once ??
    assumed(`${path}.capture.at_once`, 1, '1', { source: 'judgement', because: 'one unless said' });
  // Edges of one product take turns only where one capture is armed at a time; else each takes its own.
  const inTurn = !(atOnce instanceof Missing) && atOnce.value < 2;
  const own = (length === undefined ? 1 : 2) + (stray === undefined ? 0 : 1);
  const edges = mark.edges + (stray === undefined ? 0 : 1);
  const alone = edges === (inTurn ? own : 1);
  const rearm = given({ r: once, m: atOnce }, ({ r, m }) =>
    alone ? r : sharedRearm({ r, n: countOf(mark, 'edges_on_axis', edges), m }, name),
  );
  const between =
    inTurn && length !== undefined
      ? given({ l: length, s: mark.spacing }, (known) => closestEdges(known, name))
      : mark.spacing;
  const spacing =
    inTurn && stray !== undefined ? given({ s: between, x: stray }, (known) => closestStray(known, name)) : between;
  return {
    rearm,
    closest: given({ v: speed, r: rearm, e }, (known) => closestMarks(known, name)),
    spacing,
    highestSpeed: given({ s: spacing, e, r: rearm }, (known) => rearmSpeed(known, name)),
  };
}

function windowOf({ said, name, speed }: PlacedMark, e: Value<Quantity<'m'>>): Window {
  const { path, width, clear, opened_every } = said.window!;
  const T = opened_every ?? noneOf(`${path}.opened_every`, 's', 'a latch opens it, unless a cycle is said');
  return {
    width,
    needed: given({ e, v: speed, T }, (known) => windowNeeded(known, name)),
    allowed: clear && given({ g: clear, e, v: speed, T }, (known) => windowAllowed(known, name)),
  };
}

function lostOf({ said, name, speed, spacing, line }: PlacedMark): Lost {
  const { path, after, looked_every, stop, reaction, braking, allowed } = said.lost!;
  const W =
    said.window?.width ?? noneOf(`${said.path}.window.width`, 'm', 'without a window a mark is lost at its place');
  const noticed = given({ n: after, s: spacing, W, v: speed, T: looked_every }, (known) => lostMarkTime(known, name));
  const noticedWeb = given({ v: speed, t: noticed }, (known) => lostMarkWeb(known, name));
  const stopWeb = ((): Value<Quantity<'m'>> => {
    if (stop !== undefined) {
      if (stop instanceof Missing) return stop;
      if (line === undefined || line instanceof Missing)
        return line ?? missing(`${said.path}.follow`, 'absent', 'a master', 'line');
      return (
        line.stops.find((each) => each.name === stop.name)?.way ??
        missing(`${path}.stop`, 'problem', `a stop of ${line.name} in which the drives work`, 'quick')
      );
    }
    return given(
      {
        v: speed,
        r: reaction ?? missing(`${path}.reaction`, 'absent', 'a time', '20 ms'),
        a: braking ?? missing(`${path}.braking`, 'absent', 'an acceleration', '5 m/s²'),
      },
      (known) => brakingWay(known, name),
    );
  })();
  return {
    noticed,
    noticedWeb,
    stopWeb,
    runOn: given({ s: spacing, w: noticedWeb, b: stopWeb }, (known) => runOn(known, name)),
    allowed,
  };
}
