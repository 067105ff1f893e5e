// The part of JSON Schema (draft 2020-12) that our fields need.

export interface JsonSchema {
  readonly type?: 'object' | 'array' | 'string' | 'number' | 'integer' | readonly ['string', 'number'];
  readonly title?: string;
  readonly description?: string;
  readonly pattern?: string;
  readonly enum?: readonly (string | number)[];
  readonly const?: string | number;
  readonly examples?: readonly unknown[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly patternProperties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: boolean | JsonSchema;
  readonly required?: readonly string[];
  readonly items?: JsonSchema | false;
  readonly prefixItems?: readonly JsonSchema[];
  readonly minItems?: number;
  readonly anyOf?: readonly JsonSchema[];
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, JsonSchema>>;
}
