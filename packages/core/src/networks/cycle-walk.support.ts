// The second method for every discipline: one cycle walked event by event, hop by hop, in whole picoseconds. It knows
// nothing of the closed forms and imports nothing of them; only tests use it. It is long because it may import nothing at all.

export interface WalkDevice {
  readonly name: string;
  /** The device before it on the way from the controller; -1 for the controller. */
  readonly parent: number;
  readonly kind: 'station' | 'hub' | 'switch' | 'coupling';
  readonly cable_ps: number;
  readonly forwarding_ps: number;
  /** Octets that must have come in before a frame is passed on, or the whole frame. */
  readonly waits: number | 'frame';
  readonly turnaround_ps: number;
  readonly command_octets: number;
  readonly answer_octets: number;
  readonly every: number;
}

export interface WalkNetwork {
  readonly discipline: 'polled' | 'pipelined' | 'chained' | 'summation' | 'slotted';
  readonly shared: boolean;
  readonly octet_ps: number;
  readonly preamble: number;
  readonly gap: number;
  readonly least: number;
  readonly most: number;
  readonly overhead: number;
  readonly start: number;
  readonly opens: number;
  readonly closes: number;
  readonly chainGap_ps: number;
  readonly repeats: number;
  readonly nonCyclic: number;
  readonly devices: readonly WalkDevice[];
}

export interface Walked {
  readonly used_ps: number;
  /** First bit at each station when it alone is spoken to. */
  readonly there_ps: ReadonlyMap<string, number>;
  /** First bit of its answer back at the controller, from the first bit of the command. */
  readonly answered_ps: ReadonlyMap<string, number>;
  /** From the start of the cycle until the last command is at its station, in any cycle. */
  readonly commandsIn_ps: number;
  /** Frames that had to wait where a timetable promises that none does. */
  readonly conflicts: number;
  /** Where start frame, exchanges, repeats and non-cyclic window end in the fullest cycle. */
  readonly ends_ps: readonly number[];
  /** For each cycle of the pattern, what passes the controller's port, each way in the order of time. */
  readonly cycles: readonly WalkCycle[];
}

export interface WalkCycle {
  readonly commands: readonly WalkFrame[];
  readonly answers: readonly WalkFrame[];
  /** Every frame on every cable, some of them twice. */
  readonly hops: readonly WalkHop[];
}

/** A frame on the cable between a device and the one before it, as it leaves the sender's end. */
export interface WalkHop {
  readonly cable: string;
  readonly way: 'out' | 'back';
  readonly from_ps: number;
  readonly to_ps: number;
}

/** From the first bit of the preamble to the last bit, counted from the start of the cycle. */
export interface WalkFrame {
  readonly stations: readonly string[];
  readonly from_ps: number;
  readonly to_ps: number;
}

/**
 * Walks every cycle of the pattern and gives the fullest. `phases` says in which cycle each station is served, and in
 * which order the stations of one cycle follow each other.
 */
export function walk(network: WalkNetwork, phases: ReadonlyMap<string, number>): Walked {
  const stations = [...phases.keys()].map((name) => network.devices.findIndex((device) => device.name === name));
  const pattern = stations.map((index) => network.devices[index]!.every).reduce((a, b) => (a * b) / divisor(a, b), 1);
  const line = new Line(network);
  let busiest_ps = 0;
  let again_ps = 0;
  let lastIn_ps = 0;
  const lone = (octets: number): number => (octets === 0 ? 0 : line.occupied_ps(octets));
  const cycles: WalkCycle[] = [];
  for (let cycle = 0; cycle < pattern; cycle++) {
    const served = stations.filter(
      (index) => cycle % network.devices[index]!.every === phases.get(network.devices[index]!.name),
    );
    const { busy_ps, longest_ps, in_ps, commands, answers, hops } = cycleOf(network, served, line);
    const later = <F extends { readonly from_ps: number; readonly to_ps: number }>(
      frames: readonly F[],
    ): readonly F[] =>
      frames
        .map((frame) => {
          const start_ps = lone(network.start);
          return { ...frame, from_ps: frame.from_ps + start_ps, to_ps: frame.to_ps + start_ps };
        })
        .sort((a, b) => a.from_ps - b.from_ps);
    cycles.push({ commands: later(commands), answers: later(answers), hops: later(hops) });
    if (served.length > 0) lastIn_ps = Math.max(lastIn_ps, in_ps);
    busiest_ps = Math.max(busiest_ps, busy_ps);
    again_ps = Math.max(again_ps, longest_ps);
  }
  const exchanged_ps = lone(network.start) + busiest_ps;
  const repeated_ps = exchanged_ps + network.repeats * again_ps;
  const used_ps = repeated_ps + lone(network.opens) + lone(network.nonCyclic) + lone(network.closes);
  const there = new Map<string, number>();
  const answered = new Map<string, number>();
  for (const index of stations) {
    const device = network.devices[index]!;
    const sent = new Line(network);
    const first_ps = sent.down(index, sent.frame(device.command_octets), 0);
    there.set(device.name, first_ps);
    answered.set(
      device.name,
      sent.up(
        index,
        sent.frame(device.answer_octets),
        first_ps + sent.transmitted_ps(sent.frame(device.command_octets)) + device.turnaround_ps,
      ),
    );
  }
  return {
    used_ps,
    there_ps: there,
    answered_ps: answered,
    commandsIn_ps: lone(network.start) + lastIn_ps,
    conflicts: line.conflicts,
    ends_ps: [lone(network.start), exchanged_ps, repeated_ps, used_ps],
    cycles,
  };
}

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** The cables with what is on them. */
class Line {
  readonly network: WalkNetwork;
  conflicts = 0;
  hops: WalkHop[] = [];
  #freeDown: number[] = [];
  #freeUp: number[] = [];

  constructor(network: WalkNetwork) {
    this.network = network;
    this.clear();
  }

  clear(): void {
    this.#freeDown = this.network.devices.map(() => 0);
    this.#freeUp = this.network.devices.map(() => 0);
  }

  passes(index: number, way: WalkHop['way'], from_ps: number, frame: number): void {
    const cable = this.network.devices[index]!.name;
    this.hops.push({ cable, way, from_ps, to_ps: from_ps + this.transmitted_ps(frame) });
  }

  /** What is only looked at leaves no hops. */
  tried<R>(look: () => R): R {
    const { hops } = this;
    this.hops = [];
    const found = look();
    this.hops = hops;
    return found;
  }

  frame(payload: number): number {
    return Math.max(this.network.least, this.network.overhead + payload);
  }

  transmitted_ps(frame: number): number {
    return (this.network.preamble + frame) * this.network.octet_ps;
  }

  occupied_ps(frame: number): number {
    return this.transmitted_ps(frame) + this.network.gap * this.network.octet_ps;
  }

  /** From the first bit in to the moment at which the first bit can leave. */
  passing_ps(index: number, frame: number): number {
    const device = this.network.devices[index]!;
    if (device.kind === 'coupling' || (this.network.shared && device.kind === 'station')) return 0;
    if (device.waits === 'frame') return this.transmitted_ps(frame) + device.forwarding_ps;
    return device.waits * this.network.octet_ps + device.forwarding_ps;
  }

  /** Sends a frame from the controller; gives the first bit's arrival at the station. Counts frames that wait inside. */
  down(target: number, frame: number, begins_ps: number): number {
    const way: number[] = [];
    for (let at = target; at >= 0; at = this.network.devices[at]!.parent) way.unshift(at);
    let ready_ps = begins_ps;
    way.forEach((index, hop) => {
      const sent_ps = Math.max(ready_ps, this.#freeDown[index]!);
      if (sent_ps > ready_ps) this.conflicts++;
      this.#freeDown[index] = sent_ps + this.occupied_ps(frame);
      this.passes(index, 'out', sent_ps, frame);
      const arrives_ps = sent_ps + this.network.devices[index]!.cable_ps;
      ready_ps = hop === way.length - 1 ? arrives_ps : arrives_ps + this.passing_ps(index, frame);
    });
    return ready_ps;
  }

  /** Sends a frame from a station with nothing else under way; gives the first bit's arrival at the controller. */
  up(source: number, frame: number, begins_ps: number): number {
    let at_ps = begins_ps;
    for (let at = source; at >= 0; at = this.network.devices[at]!.parent) {
      if (at !== source) at_ps += this.passing_ps(at, frame);
      this.passes(at, 'back', at_ps, frame);
      at_ps += this.network.devices[at]!.cable_ps;
    }
    return at_ps;
  }

  /**
   * Lets answers run up together; each waits where the cable before it is taken. Events are taken in the order of time.
   * Gives when each answer's first bit reaches the controller, and how many had to wait anywhere.
   */
  together(answers: readonly { readonly source: number; readonly frame: number; readonly ready_ps: number }[]): {
    readonly arrived: readonly number[];
    readonly waited: number;
  } {
    const arrived = answers.map(() => 0);
    let waited = 0;
    const events = answers.map(({ source, ready_ps }, answer) => ({ time_ps: ready_ps, at: source, answer }));
    while (events.length > 0) {
      const next = events.reduce((first, event) =>
        event.time_ps < first.time_ps || (event.time_ps === first.time_ps && event.answer < first.answer)
          ? event
          : first,
      );
      events.splice(events.indexOf(next), 1);
      const { frame } = answers[next.answer]!;
      const sent_ps = Math.max(next.time_ps, this.#freeUp[next.at]!);
      if (sent_ps > next.time_ps) waited++;
      this.#freeUp[next.at] = sent_ps + this.occupied_ps(frame);
      this.passes(next.at, 'back', sent_ps, frame);
      const arrives_ps = sent_ps + this.network.devices[next.at]!.cable_ps;
      const parent = this.network.devices[next.at]!.parent;
      if (parent < 0) arrived[next.answer] = arrives_ps;
      else events.push({ time_ps: arrives_ps + this.passing_ps(parent, frame), at: parent, answer: next.answer });
    }
    return { arrived, waited };
  }
}

function cycleOf(
  network: WalkNetwork,
  served: readonly number[],
  line: Line,
): WalkCycle & { readonly busy_ps: number; readonly longest_ps: number; readonly in_ps: number } {
  const device = (index: number): WalkDevice => network.devices[index]!;
  const command = (index: number): number => line.frame(device(index).command_octets);
  const answer = (index: number): number => line.frame(device(index).answer_octets);
  const exchange = (index: number, begins_ps: number): number => {
    line.clear();
    const heard_ps = line.down(index, command(index), begins_ps) + line.occupied_ps(command(index));
    return line.up(index, answer(index), heard_ps + device(index).turnaround_ps) + line.occupied_ps(answer(index));
  };
  const sent = (stations: readonly number[], frame: number, from_ps: number): WalkFrame => ({
    stations: stations.map((index) => device(index).name),
    from_ps,
    to_ps: from_ps + line.transmitted_ps(frame),
  });
  const commands: WalkFrame[] = [];
  const longest_ps = line.tried(() => Math.max(0, ...served.map((index) => exchange(index, 0))));
  line.clear();
  line.hops = [];
  const { hops } = line;

  if (network.discipline === 'polled') {
    let now_ps = 0;
    let in_ps = 0;
    const answers: WalkFrame[] = [];
    for (const index of served) {
      line.clear();
      commands.push(sent([index], command(index), now_ps));
      in_ps = line.down(index, command(index), now_ps) + line.occupied_ps(command(index));
      now_ps = exchange(index, now_ps);
      answers.push(sent([index], answer(index), now_ps - line.occupied_ps(answer(index))));
    }
    return { busy_ps: now_ps, longest_ps, in_ps, commands, answers, hops };
  }

  if (network.discipline === 'pipelined') {
    let leaves_ps = 0;
    const coming = served.map((source) => {
      commands.push(sent([source], command(source), leaves_ps));
      const heard_ps = line.down(source, command(source), leaves_ps) + line.occupied_ps(command(source));
      leaves_ps += line.occupied_ps(command(source));
      return { source, frame: answer(source), ready_ps: heard_ps + device(source).turnaround_ps };
    });
    const { arrived } = line.together(coming);
    return {
      busy_ps: Math.max(...arrived.map((at_ps, index) => at_ps + line.occupied_ps(coming[index]!.frame))),
      longest_ps,
      in_ps: Math.max(...coming.map(({ source, ready_ps }) => ready_ps - device(source).turnaround_ps)),
      commands,
      answers: arrived.map((at_ps, index) => sent([coming[index]!.source], coming[index]!.frame, at_ps)),
      hops,
    };
  }

  if (network.discipline === 'chained') {
    const all = line.frame(served.reduce((sum, index) => sum + device(index).command_octets, 0));
    const ready = served.map((source) => {
      line.clear();
      const speaks_ps = line.down(source, all, 0) + line.occupied_ps(all) + device(source).turnaround_ps;
      return { source, speaks_ps, alone_ps: line.tried(() => line.up(source, answer(source), speaks_ps)) };
    });
    line.clear();
    ready.sort((a, b) => a.alone_ps - b.alone_ps);
    let free_ps = 0;
    const slots = ready.map(({ source, speaks_ps, alone_ps }) => {
      const slot_ps = Math.max(free_ps, alone_ps);
      free_ps = slot_ps + line.occupied_ps(answer(source)) + network.chainGap_ps;
      return { source, frame: answer(source), ready_ps: speaks_ps + slot_ps - alone_ps };
    });
    const { arrived, waited } = line.together(slots);
    line.conflicts += waited;
    const in_ps = Math.max(...ready.map(({ source, speaks_ps }) => speaks_ps - device(source).turnaround_ps));
    const answers = arrived.map((at_ps, index) => sent([slots[index]!.source], slots[index]!.frame, at_ps));
    return { busy_ps: free_ps, longest_ps, in_ps, commands: [sent(served, all, 0)], answers, hops };
  }

  if (network.discipline === 'slotted') {
    const storing = network.devices.some(({ waits, kind }) => waits === 'frame' && kind !== 'hub');
    const away = (index: number): number => {
      line.clear();
      return line.tried(() => line.down(index, command(index), 0));
    };
    const back = (index: number): number => line.tried(() => line.up(index, answer(index), 0));
    const farthest = [...served].sort((a, b) => away(b) - away(a));
    const down = storing ? farthest.sort((a, b) => command(a) - command(b)) : farthest;
    line.clear();
    let leaves_ps = 0;
    let in_ps = 0;
    for (const index of down) {
      in_ps = Math.max(in_ps, line.down(index, command(index), leaves_ps) + line.occupied_ps(command(index)));
      commands.push(sent([index], command(index), leaves_ps));
      leaves_ps += line.occupied_ps(command(index));
    }
    const nearest = [...served].sort((a, b) => back(a) - back(b));
    const up = storing ? nearest.sort((a, b) => answer(b) - answer(a)) : nearest;
    let free_ps = 0;
    const slots = up.map((source) => {
      const slot_ps = Math.max(free_ps, back(source));
      free_ps = slot_ps + line.occupied_ps(answer(source));
      return { source, frame: answer(source), ready_ps: slot_ps - back(source) };
    });
    const { arrived, waited } = line.together(slots);
    line.conflicts += waited;
    const answers = arrived.map((at_ps, index) => sent([slots[index]!.source], slots[index]!.frame, at_ps));
    return { busy_ps: Math.max(in_ps, free_ps), longest_ps, in_ps, commands, answers, hops };
  }

  const frames: number[] = [];
  const carried: number[][] = [];
  let room = 0;
  for (const index of served) {
    const place = device(index).command_octets + device(index).answer_octets;
    if (frames.length === 0 || place > room) {
      frames.push(0);
      carried.push([]);
      room = network.most - network.overhead;
    }
    frames[frames.length - 1]! += place;
    carried.at(-1)!.push(index);
    room -= place;
  }
  const lengths = frames.map((data) => line.occupied_ps(line.frame(data)));
  const trip_ps = throughAll(network, -1);
  let all_ps = 0;
  for (const [index, length_ps] of lengths.entries()) {
    commands.push(sent(carried[index]!, line.frame(frames[index]!), all_ps));
    passThroughAll(network, -1, line.frame(frames[index]!), all_ps, line);
    all_ps += length_ps;
  }
  all_ps += trip_ps;
  return {
    busy_ps: all_ps,
    in_ps: all_ps,
    longest_ps: Math.max(...lengths) + trip_ps,
    commands,
    answers: commands.map((frame) => ({
      ...frame,
      from_ps: frame.from_ps + trip_ps,
      to_ps: frame.to_ps + trip_ps,
    })),
    hops,
  };
}

/** The same way, hop by hop; gives when the first bit is back. */
function passThroughAll(network: WalkNetwork, at: number, frame: number, from_ps: number, line: Line): number {
  const here_ps = at < 0 || network.devices[at]!.kind === 'coupling' ? 0 : network.devices[at]!.forwarding_ps;
  const branches = network.devices.map((_, index) => index).filter((index) => network.devices[index]!.parent === at);
  let now_ps = from_ps + here_ps;
  for (const index of branches) {
    const { cable_ps } = network.devices[index]!;
    line.passes(index, 'out', now_ps, frame);
    now_ps = passThroughAll(network, index, frame, now_ps + cable_ps, line);
    line.passes(index, 'back', now_ps, frame);
    now_ps += cable_ps + here_ps;
  }
  return branches.length === 0 ? now_ps + here_ps : now_ps;
}

/** Down every branch and up again: a device is crossed when it is entered, and after every branch behind it. */
function throughAll(network: WalkNetwork, at: number): number {
  const here_ps = at < 0 || network.devices[at]!.kind === 'coupling' ? 0 : network.devices[at]!.forwarding_ps;
  const branches = network.devices.map((_, index) => index).filter((index) => network.devices[index]!.parent === at);
  const behind_ps = branches.reduce(
    (sum, index) => sum + 2 * network.devices[index]!.cable_ps + throughAll(network, index) + here_ps,
    0,
  );
  return here_ps + behind_ps + (branches.length === 0 ? here_ps : 0);
}
