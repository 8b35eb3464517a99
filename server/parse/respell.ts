/**
 * What the grammar cannot read although C++ has it, spelled so that it can, in as many characters: `unsigned(x)` and its
 * like, values made by a type of several words. Every offset stays what it was.
 */

/** Names of as many letters for types whose own names the grammar takes for the start of a declaration. */
export const RESPELLED_TYPES: ReadonlyMap<string, string> = new Map([
  ["unsigned", "$uint16x"],
  ["signed", "$int16"],
  ["long", "$i32"],
  ["short", "$shrt"],
]);

const FUNCTIONAL_CAST = /(?<![\w$]|[\w$][ \t])(unsigned|signed|long|short)(?=[ \t]*\()/g;

/** An attribute that stands where a statement does; the empty statement behind it says as much. */
const FALLTHROUGH = /__attribute__\s*\(\(\s*(?:__)?fallthrough(?:__)?\s*\)\)(?=\s*;)/g;

export function respelled(text: string): string {
  const cast = text.replace(FUNCTIONAL_CAST, (word) => RESPELLED_TYPES.get(word) ?? word);
  if (!cast.includes("fallthrough")) return cast;
  return cast.replace(FALLTHROUGH, (attribute) => attribute.replace(/\S/g, " "));
}
