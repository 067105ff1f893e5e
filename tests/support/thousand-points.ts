// A machine of a thousand points of six kinds at four stations, whose racks are all to be chosen.

const stations = [1, 2, 3, 4];

export const thousandPoints = (): string => `layshaft: 1
machine: { name: A thousand points }
catalogue: [demonstration]
controller: controller_m
networks:
  io:
    profile: polled_100
    cycle: 2 ms
    nodes: { ${stations.map((at) => `s_${at}: rack_head`).join(', ')} }
    runs: [${stations.map((at) => `[${at === 1 ? 'controller' : `s_${at - 1}`}, s_${at}, 5 m, solid]`).join(', ')}]
racks: open
points:
${stations
  .map(
    (at) => `  lid_${at}_[1..100]: { kind: digital_in, type: 3, at: s_${at}, wire: 10 m }
  valve_${at}_[1..80]: { kind: digital_out, current: 0.3 A, at: s_${at}, wire: 10 m }
  level_${at}_[1..30]: { kind: analogue_in, range: [4 mA, 20 mA], at: s_${at}, wire: 10 m }
  speed_${at}_[1..20]: { kind: analogue_out, range: [-10 V, 10 V], at: s_${at}, wire: 10 m }
  heat_${at}_[1..15]: { kind: thermocouple, sensor: k, at: s_${at}, wire: 10 m }
  count_${at}_[1..5]: { kind: counter, frequency: 50 kHz, at: s_${at}, wire: 10 m }
`,
  )
  .join('')}`;
