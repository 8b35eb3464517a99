/**
 * The abstract integers of the engine: known bits, bounds and small sets in one. The domain's public file; what stands
 * behind each name is in the file it comes from. Operands of binary operations have been converted to `type` before,
 * and results wrap to it: signed overflow, undefined in C, wraps as avr-gcc's code does.
 */

export {
  type Assumed,
  assumeBits,
  assumeEqual,
  assumeLess,
  assumeLessEqual,
  assumeNotEqual,
  assumeTruth,
  equalTo,
  less,
  lessEqual,
} from "./compare.js";
export { fromBits, fromValues, range, truth } from "./convert.js";
export {
  add,
  and,
  convert,
  div,
  mod,
  mul,
  neg,
  not,
  occurringIn,
  or,
  shl,
  shr,
  sub,
  toBoolean,
  truthBy,
  xor,
} from "./dependent-operations.js";
export { FEW } from "./few.js";
export { type AnyIntegerType, type IntegerType, typeName } from "./integer-type.js";
export {
  contains,
  equal,
  holdsOnly,
  isSingle,
  join,
  leq,
  meet,
  members,
  narrow,
  show,
  size,
  whyNotLeq,
  widen,
} from "./order.js";
export { type AbstractInteger, constant, top } from "./product.js";
