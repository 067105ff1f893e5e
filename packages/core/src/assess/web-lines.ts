// What the axes know of a line, as the marks on its web need it.
import type { Master } from '../axes/resolve.ts';
import type { StopDemand } from '../axes/stops.ts';
import type { WebLine } from '../physics/web-line.ts';
import { Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

type Value<T> = T | Missing;

interface RepeatOfMaster {
  readonly name: string;
  readonly repeat?: Value<Quantity<'m'>> | undefined;
}

export function webLines(
  masters: readonly Master[],
  sections: readonly RepeatOfMaster[],
  stops: readonly StopDemand[],
): readonly WebLine[] {
  return masters.map((master): WebLine => {
    const { name, path, speed, unit, ramp_up, ramp_down } = master;
    const along =
      unit === 'm'
        ? (speed as Value<Quantity<'m/s'>>)
        : missing(`${path}.speed`, 'problem', 'a speed along the web', '150 m/min');
    return {
      name,
      speed: speed instanceof Missing ? speed : along,
      repeat:
        sections.find((each) => each.name === name)?.repeat ??
        missing(`${path}.repeat`, 'absent', 'a length', '250 mm'),
      ramps: [ramp_up, ramp_down].flatMap((each) => (each === undefined || each instanceof Missing ? [] : [each])),
      stops: stops
        .filter((each) => each.master === master && each.way !== undefined)
        .map(({ stop, way }) => ({ name: stop.name, way: way as Value<Quantity<'m'>> })),
    };
  });
}
