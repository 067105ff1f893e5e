// The demonstration catalogue: invented parts, read by the same reader as a user's own, but each when it is asked for.
import { type Catalogue, catalogueOnDemand } from '@layshaft/core';
import captures from './demonstration/captures.yaml';
import drives from './demonstration/drives.yaml';
import gears from './demonstration/gears.yaml';
import motors from './demonstration/motors.yaml';
import network from './demonstration/network.yaml';
import profiles from './demonstration/profiles.yaml';
import racks from './demonstration/racks.yaml';

/** The name by which machine files use this catalogue. */
export const demonstrationName = 'demonstration';

/** A test reads all of them and finds no problem. */
export const demonstrationTexts = Object.entries({ profiles, network, drives, motors, gears, captures, racks }).map(
  ([name, text]) => ({
    file: `demonstration/${name}.yaml`,
    text,
  }),
);

/** The demonstration parts; each call reads them anew. */
export const demonstration = (): Catalogue => catalogueOnDemand(demonstrationName, demonstrationTexts);
