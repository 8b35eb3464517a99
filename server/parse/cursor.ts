/** What the cursors of both builds of tree-sitter have in common, as far as it is used. */
export interface Cursor {
  readonly nodeType: string;
  readonly nodeTypeId: number;
  readonly nodeIsNamed: boolean;
  readonly nodeIsMissing: boolean;
  readonly startIndex: number;
  readonly endIndex: number;
  /** 0 where there is none. */
  readonly currentFieldId: number;
  readonly currentFieldName: string | null | undefined;
  gotoFirstChild(): boolean;
  gotoNextSibling(): boolean;
  gotoParent(): boolean;
}
