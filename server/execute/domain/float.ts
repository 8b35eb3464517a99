/**
 * The abstract floating-point numbers of the engine. The domain's public file; what stands behind each name is in the
 * file it comes from. Operands of comparisons and arithmetic have been converted to float before.
 */

export {
  absFloat as abs,
  addFloats as add,
  callFunction,
  divFloats as div,
  fromInteger,
  mulFloats as mul,
  negFloat as neg,
  subFloats as sub,
  toInteger,
} from "./dependent-operations.js";
export {
  type AssumedFloats,
  assumeEqual,
  assumeLess,
  assumeLessEqual,
  assumeNotEqual,
  assumeNotLess,
  assumeNotLessEqual,
  assumeTruth,
  equalTo,
  less,
  lessEqual,
  truth,
} from "./float-arithmetic.js";
export { sqrt } from "./float-functions.js";
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
