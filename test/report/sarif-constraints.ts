/**
 * The constraints of SARIF's published schema, set down by hand for the objects that we write (source: OASIS, "SARIF Version
 * 2.1.0 JSON Schema", errata 01, docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json). Names,
 * types, required fields, enumerations, bounds and uniqueness are the schema's. A property that the schema has and we never
 * write is left out, and refused here: what passes passes the published schema too, not the other way round.
 */

type Schema = Readonly<Record<string, unknown>>;

const text: Schema = { type: "string" };
const flag: Schema = { type: "boolean" };
const ref = (name: string): Schema => ({ $ref: `#/definitions/${name}` });
const list = (items: Schema, more: Schema = {}): Schema => ({ type: "array", items, ...more });
const set = (items: Schema, more: Schema = {}): Schema => list(items, { uniqueItems: true, ...more });
const whole = (minimum: number): Schema => ({ type: "integer", minimum });
const object = (properties: Record<string, Schema>, required: readonly string[] = [], more: Schema = {}): Schema => ({
  type: "object",
  additionalProperties: false,
  properties,
  required,
  ...more,
});
const oneRequired = (...names: readonly string[]): Schema => ({ anyOf: names.map((name) => ({ required: [name] })) });
const level: Schema = { type: "string", enum: ["none", "note", "warning", "error"] };

export const sarifConstraints: Schema = {
  ...object(
    {
      $schema: { type: "string", format: "uri" },
      version: { type: "string", enum: ["2.1.0"] },
      runs: list(ref("run")),
    },
    ["version", "runs"],
  ),
  definitions: {
    artifact: object({
      location: ref("artifactLocation"),
      roles: set({ type: "string", enum: ["analysisTarget", "tracedFile"] }),
    }),
    artifactChange: object(
      { artifactLocation: ref("artifactLocation"), replacements: list(ref("replacement"), { minItems: 1 }) },
      ["artifactLocation", "replacements"],
    ),
    artifactContent: object({ text }),
    artifactLocation: object({
      uri: { type: "string", format: "uri-reference" },
      uriBaseId: text,
      index: whole(-1),
      description: ref("message"),
    }),
    fix: object(
      {
        description: ref("message"),
        artifactChanges: set(ref("artifactChange"), { minItems: 1 }),
        properties: ref("propertyBag"),
      },
      ["artifactChanges"],
    ),
    invocation: object(
      {
        exitCode: { type: "integer" },
        toolExecutionNotifications: list(ref("notification")),
        toolConfigurationNotifications: list(ref("notification")),
        executionSuccessful: flag,
      },
      ["executionSuccessful"],
    ),
    location: object({ id: whole(-1), physicalLocation: ref("physicalLocation"), message: ref("message") }),
    message: object({ text, markdown: text }, [], oneRequired("text", "id")),
    multiformatMessageString: object({ text, markdown: text }, ["text"]),
    notification: object(
      {
        locations: set(ref("location")),
        message: ref("message"),
        level,
        descriptor: ref("reportingDescriptorReference"),
      },
      ["message"],
    ),
    physicalLocation: object(
      { artifactLocation: ref("artifactLocation"), region: ref("region") },
      [],
      oneRequired("address", "artifactLocation"),
    ),
    propertyBag: { type: "object", additionalProperties: true, properties: { tags: set(text) } },
    region: object(
      {
        startLine: whole(1),
        startColumn: whole(1),
        endLine: whole(1),
        endColumn: whole(1),
        charOffset: whole(-1),
        charLength: whole(0),
      },
      [],
      oneRequired("startLine", "charOffset", "byteOffset"),
    ),
    replacement: object({ deletedRegion: ref("region"), insertedContent: ref("artifactContent") }, ["deletedRegion"]),
    reportingConfiguration: object({ level }),
    reportingDescriptor: object(
      {
        id: text,
        name: text,
        shortDescription: ref("multiformatMessageString"),
        fullDescription: ref("multiformatMessageString"),
        defaultConfiguration: ref("reportingConfiguration"),
        help: ref("multiformatMessageString"),
        properties: ref("propertyBag"),
      },
      ["id"],
    ),
    reportingDescriptorReference: object({ id: text, index: whole(-1) }, [], oneRequired("index", "guid", "id")),
    result: object(
      {
        ruleId: text,
        ruleIndex: whole(-1),
        level,
        message: ref("message"),
        locations: list(ref("location")),
        partialFingerprints: { type: "object", additionalProperties: text },
        relatedLocations: set(ref("location")),
        suppressions: set(ref("suppression")),
        fixes: set(ref("fix")),
      },
      ["message"],
    ),
    run: object(
      {
        tool: ref("tool"),
        invocations: list(ref("invocation")),
        originalUriBaseIds: { type: "object", additionalProperties: ref("artifactLocation") },
        artifacts: set(ref("artifact")),
        results: list(ref("result")),
        automationDetails: ref("runAutomationDetails"),
        defaultEncoding: text,
        defaultSourceLanguage: text,
        newlineSequences: set(text, { minItems: 1 }),
        columnKind: { type: "string", enum: ["utf16CodeUnits", "unicodeCodePoints"] },
      },
      ["tool"],
    ),
    runAutomationDetails: object({ id: text }),
    suppression: object(
      {
        kind: { type: "string", enum: ["inSource", "external"] },
        status: { type: "string", enum: ["accepted", "underReview", "rejected"] },
        justification: text,
      },
      ["kind"],
    ),
    tool: object({ driver: ref("toolComponent") }, ["driver"]),
    toolComponent: object(
      {
        name: text,
        shortDescription: ref("multiformatMessageString"),
        fullName: text,
        version: text,
        semanticVersion: text,
        notifications: set(ref("reportingDescriptor")),
        rules: set(ref("reportingDescriptor")),
        language: { type: "string", pattern: "^[a-zA-Z]{2}(-[a-zA-Z]{2})?$" },
        isComprehensive: flag,
      },
      ["name"],
    ),
  },
};
