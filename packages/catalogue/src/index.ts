// The door of the catalogue package.
export { demonstration, demonstrationName } from './demonstration.ts';
export { starter, starterFor } from './starter.ts';
