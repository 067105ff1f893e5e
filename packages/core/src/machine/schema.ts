// The JSON Schema of the machine file, from the fields that read it, so that editors complete and check while one types.
import type { JsonSchema } from '../reading/json-schema.ts';
import { format } from './format.ts';

/** Draft 2020-12. What a schema cannot say (names that must exist, units of numbers) the reader reports. */
export const machineSchema = (): JsonSchema & { readonly $schema: string } => ({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Layshaft machine file',
  type: 'object',
  properties: Object.fromEntries(Object.entries(format).map(([key, field]) => [key, field.schema()])),
  required: ['layshaft'],
  additionalProperties: false,
});
