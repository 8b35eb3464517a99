/** What the walk knows of node kinds by name. Held against the grammar's own list of kinds by a test. */

/** Punctuation without meaning of its own, quotes, and comments: not kept. */
export const DROPPED: ReadonlySet<string> = new Set([";", ",", "(", ")", "{", "}", "[", "]", '"', "'", "comment"]);

/** Named kinds that never have children. */
export const CHILDLESS: ReadonlySet<string> = new Set([
  ...["identifier", "type_identifier", "field_identifier", "namespace_identifier", "statement_identifier"],
  ...["primitive_type", "number_literal", "true", "false", "this", "auto", "literal_suffix"],
  ...["character", "string_content", "escape_sequence", "raw_string_content", "raw_string_delimiter"],
]);

/** Kinds none of whose children has a field name. */
export const FIELDLESS: ReadonlySet<string> = new Set([
  ...["translation_unit", "compound_statement", "declaration_list", "field_declaration_list", "enumerator_list"],
  ...["argument_list", "parameter_list", "initializer_list", "field_initializer_list", "template_argument_list"],
  ...["template_parameter_list", "subscript_argument_list", "expression_statement", "return_statement"],
  ...["parenthesized_expression", "parenthesized_declarator", "abstract_parenthesized_declarator", "else_clause"],
  ...["reference_declarator", "abstract_reference_declarator", "string_literal", "char_literal", "concatenated_string"],
  ...["type_qualifier", "field_initializer", "base_class_clause", "bitfield_clause", "delete_expression"],
  ...["destructor_name", "operator_name", "using_declaration", "trailing_return_type", "user_defined_literal"],
]);

/** Single words: they end where their letters end. */
export const WORDS: ReadonlySet<string> = new Set([
  ...["identifier", "type_identifier", "field_identifier", "namespace_identifier", "statement_identifier"],
  ...["primitive_type", "true", "false", "this", "auto"],
]);

/** Kinds that always begin with an opening bracket of their own and end with its partner. */
export const BRACKETED: ReadonlySet<string> = new Set([
  ...["compound_statement", "declaration_list", "field_declaration_list", "enumerator_list", "initializer_list"],
  ...["argument_list", "parameter_list", "parenthesized_expression"],
]);

/** Kinds whose last child is always a semicolon of their own, if their text ends with one. */
export const SEMICOLON: ReadonlySet<string> = new Set([
  ...["expression_statement", "return_statement", "declaration", "field_declaration"],
]);

/** Kinds inside which blank space counts. */
export const VERBATIM: ReadonlySet<string> = new Set([
  ...["string_literal", "char_literal", "raw_string_literal", "user_defined_literal", "system_lib_string"],
]);
