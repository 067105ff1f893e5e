// What a motor's own encoder makes of its speed: seen from sample to sample it goes up and down by one count.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isUnsaid } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { countedTurningStep, encoderAngle, speedRipple } from './calc/encoder.ts';
import type { AxisDemand } from './demand.ts';

/** Rows of a data sheet; none where motor or drive do not say what is asked for. */
export function ownEncoderRows({ axis, speed }: AxisDemand): readonly (readonly [string, Value<Quantity>])[] {
  const { motor, drive, name } = axis;
  if (motor.absent || isUnsaid(motor.encoder) || isUnsaid(drive.speed_sample)) return [];
  const about = `${name}.motor`;
  const step = given({ n: motor.encoder, T: drive.speed_sample }, ({ n, T }) =>
    countedTurningStep({ w: encoderAngle({ W: aTurn, n }, about), T }, about),
  );
  return [
    ['step of its speed as its encoder counts it, without a filter', step],
    ['the same as a share of the highest speed', given({ s: step, v: speed }, (known) => speedRipple(known, about))],
  ];
}

export const aTurn = assumed('axes.turn_of_encoder', 2 * Math.PI, 'rad', {
  source: 'definition',
  because: 'the encoder turns with the motor',
});
