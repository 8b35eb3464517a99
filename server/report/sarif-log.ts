/**
 * The parts of SARIF 2.1.0 (OASIS, errata 01) that we write, as types: plain data, fields in the order in which they are
 * printed. What the standard leaves open and we never set is not here.
 */

export interface SarifLog {
  readonly $schema: string;
  readonly version: "2.1.0";
  readonly runs: readonly SarifRun[];
}

export interface SarifRun {
  readonly tool: { readonly driver: SarifDriver };
  readonly automationDetails: { readonly id: string };
  readonly invocations: readonly SarifInvocation[];
  readonly originalUriBaseIds: Readonly<Record<string, { readonly description: SarifMessage }>>;
  readonly defaultEncoding: string;
  readonly defaultSourceLanguage: string;
  readonly newlineSequences: readonly string[];
  readonly columnKind: "utf16CodeUnits";
  readonly artifacts: readonly SarifArtifact[];
  readonly results: readonly SarifResult[];
}

export interface SarifDriver {
  readonly name: string;
  readonly fullName: string;
  readonly version: string;
  readonly semanticVersion: string;
  readonly language: string;
  readonly shortDescription: SarifText;
  readonly isComprehensive: boolean;
  readonly rules: readonly SarifDescriptor[];
  readonly notifications: readonly SarifDescriptor[];
}

export type SarifLevel = "none" | "note" | "warning" | "error";

/** A text, and the same with Markdown's marks. */
export interface SarifText {
  readonly text: string;
  readonly markdown?: string;
}

export type SarifMessage = SarifText;

export interface SarifDescriptor {
  readonly id: string;
  readonly name: string;
  readonly shortDescription: SarifText;
  readonly fullDescription: SarifText;
  readonly help?: SarifText;
  readonly defaultConfiguration: { readonly level: SarifLevel };
  readonly properties?: Readonly<Record<string, string | readonly string[]>>;
}

export interface SarifInvocation {
  readonly executionSuccessful: boolean;
  readonly exitCode: number;
  readonly toolExecutionNotifications: readonly SarifNotification[];
  readonly toolConfigurationNotifications: readonly SarifNotification[];
}

export interface SarifNotification {
  readonly descriptor: { readonly id: string; readonly index: number };
  readonly level: SarifLevel;
  readonly message: SarifMessage;
  readonly locations?: readonly SarifLocation[];
}

export interface SarifArtifactLocation {
  readonly uri: string;
  readonly uriBaseId: string;
  readonly index: number;
}

export interface SarifArtifact {
  readonly location: SarifArtifactLocation;
  readonly roles: readonly ("analysisTarget" | "tracedFile")[];
}

/** Lines and columns from 1; the end column is the one after the last character. Offsets from 0. */
export interface SarifRegion {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly charOffset: number;
  readonly charLength: number;
}

export interface SarifLocation {
  readonly id?: number;
  readonly physicalLocation?: {
    readonly artifactLocation: SarifArtifactLocation;
    readonly region?: SarifRegion;
  };
  readonly message?: SarifMessage;
}

export interface SarifFix {
  readonly description: SarifMessage;
  readonly artifactChanges: readonly {
    readonly artifactLocation: SarifArtifactLocation;
    readonly replacements: readonly {
      readonly deletedRegion: SarifRegion;
      readonly insertedContent?: { readonly text: string };
    }[];
  }[];
  readonly properties: Readonly<Record<string, string>>;
}

export interface SarifResult {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly level: SarifLevel;
  readonly message: SarifMessage;
  readonly locations: readonly SarifLocation[];
  readonly relatedLocations?: readonly SarifLocation[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
  readonly fixes?: readonly SarifFix[];
  readonly suppressions?: readonly {
    readonly kind: "inSource";
    readonly status: "accepted";
    readonly justification?: string;
  }[];
}
