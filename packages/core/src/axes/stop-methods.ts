// Methods over a shaft that loses its drive.
import { openMethod } from '../working/formula.ts';

const coasted = {
  source: 'definition',
  proof: 'coasting integrated step by step',
  prose:
    'friction and loads of the train at the motor shaft and, behind its delay, the brake; what gears and screws lose is ' +
    'not counted on',
} as const;

export const coastedTime = openMethod({
  ...coasted,
  id: 'axes.stop.coasted_time',
  title: 'time until the axis stands without its drive',
  gives: 's',
});
export const coastedAngle = openMethod({
  ...coasted,
  id: 'axes.stop.coasted_angle',
  title: 'angle of the motor until the axis stands without its drive',
  gives: 'rad',
  as: 'rev',
});
export const coastedWayOfTool = openMethod({
  ...coasted,
  id: 'axes.stop.coasted_way',
  title: 'way of the tool until the axis stands without its drive',
  gives: 'm',
});
export const coastedAngleOfTool = openMethod({
  ...coasted,
  id: 'axes.stop.coasted_tool_angle',
  title: 'angle of the tool until the axis stands without its drive',
  gives: 'rad',
});
