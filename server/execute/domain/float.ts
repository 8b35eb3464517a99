/**
 * The abstract floating-point numbers of the engine. The domain's public file; what stands behind each name is in the
 * file it comes from. Operands of comparisons and arithmetic have been converted to float before.
 */

export {
  type AssumedFloats,
  add,
  assumeEqual,
  assumeLess,
  assumeLessEqual,
  assumeNotEqual,
  assumeNotLess,
  assumeNotLessEqual,
  assumeTruth,
  div,
  equalTo,
  fromInteger,
  less,
  lessEqual,
  mul,
  neg,
  sub,
  toInteger,
  truth,
} from "./float-arithmetic.js";
export { abs, callFunction, sqrt } from "./float-functions.js";
export {
  type AbstractFloat,
  constant,
  contains,
  equal,
  fromValues,
  isSingle,
  join,
  leq,
  meet,
  range,
  show,
  top,
  whyNotLeq,
  widen,
} from "./float-range.js";
