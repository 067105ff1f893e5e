// The demonstration catalogue: invented parts, read by the same reader as a user's own.
import { type Catalogue, readCatalogue } from '@layshaft/core';
import network from './demonstration/network.yaml';
import profiles from './demonstration/profiles.yaml';

/** The name by which machine files use this catalogue. */
export const demonstrationName = 'demonstration';

/** Reads the demonstration parts; each call reads them anew. */
export const demonstration = (): Catalogue =>
  readCatalogue(demonstrationName, [
    { file: 'demonstration/profiles.yaml', text: profiles },
    { file: 'demonstration/network.yaml', text: network },
  ]);
