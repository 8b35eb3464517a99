/** Every finding, in the order of the documentation: one line switches one on. */
import { andBeforeOr } from "./and-before-or.js";
import { bareNumber } from "./bare-number.js";
import { byteOrder } from "./byte-order.js";
import { coarseDuty } from "./coarse-duty.js";
import { commentDisagrees } from "./comment-disagrees.js";
import { coreNotStarted } from "./core-not-started.js";
import { dutyOutOfWant } from "./duty-out-of-want.js";
import { dutyPastTop } from "./duty-past-top.js";
import { dutyWraps } from "./duty-wraps.js";
import type { FindingRule } from "./finding.js";
import { halfAMode } from "./half-a-mode.js";
import { idleTimer } from "./idle-timer.js";
import { keptBits } from "./kept-bits.js";
import { modeIgnoresWrite } from "./mode-ignores-write.js";
import { neverMatches } from "./never-matches.js";
import { noEffect } from "./no-effect.js";
import { noTopYet } from "./no-top-yet.js";
import { notAnOutput } from "./not-an-output.js";
import { notConnected } from "./not-connected.js";
import { oddOperator } from "./odd-operator.js";
import { offFrequency } from "./off-frequency.js";
import { oneCountOff } from "./one-count-off.js";
import { pinWithoutTimer } from "./pin-without-timer.js";
import { readingDisagrees } from "./reading-disagrees.js";
import { shortOfReach } from "./short-of-reach.js";
import { spikeAtZero } from "./spike-at-zero.js";
import { thinMargin } from "./thin-margin.js";
import { timeBaseMoved } from "./time-base-moved.js";
import { timerOff } from "./timer-off.js";
import { timerShared } from "./timer-shared.js";
import { topTakesPin } from "./top-takes-pin.js";
import { unreadComment } from "./unread-comment.js";
import { valueDoesNotFit } from "./value-does-not-fit.js";
import { wipedByCore } from "./wiped-by-core.js";
import { wrongRegisterBit } from "./wrong-register-bit.js";

export const allFindings: readonly FindingRule[] = [
  offFrequency,
  thinMargin,
  dutyOutOfWant,
  shortOfReach,
  coarseDuty,
  dutyPastTop,
  andBeforeOr,
  keptBits,
  halfAMode,
  topTakesPin,
  noTopYet,
  notAnOutput,
  notConnected,
  timeBaseMoved,
  timerShared,
  spikeAtZero,
  valueDoesNotFit,
  dutyWraps,
  modeIgnoresWrite,
  neverMatches,
  wrongRegisterBit,
  bareNumber,
  wipedByCore,
  pinWithoutTimer,
  oddOperator,
  noEffect,
  timerOff,
  commentDisagrees,
  oneCountOff,
  coreNotStarted,
  byteOrder,
  idleTimer,
  readingDisagrees,
  unreadComment,
];
