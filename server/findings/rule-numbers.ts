/**
 * Numbers by which other programs know the findings (SARIF's rule ids). A number is given once and never again: whoever keeps
 * a baseline or a dismissed alert keeps it by this number. A new finding takes the next one; that of a finding which goes is
 * listed as retired.
 */
export const ruleNumbers: Readonly<Record<string, number>> = {
  "off-frequency": 1001,
  "thin-margin": 1002,
  "duty-out-of-want": 1003,
  "short-of-reach": 1004,
  "coarse-duty": 1005,
  "duty-past-top": 1006,
  "and-before-or": 1007,
  "kept-bits": 1008,
  "half-a-mode": 1009,
  "top-takes-pin": 1010,
  "no-top-yet": 1011,
  "not-an-output": 1012,
  "not-connected": 1013,
  "time-base-moved": 1014,
  "timer-shared": 1015,
  "spike-at-zero": 1016,
  "value-does-not-fit": 1017,
  "duty-wraps": 1018,
  "mode-ignores-write": 1019,
  "never-matches": 1020,
  "wrong-register-bit": 1021,
  "bare-number": 1022,
  "wiped-by-core": 1023,
  "pin-without-timer": 1024,
  "odd-operator": 1025,
  "no-effect": 1026,
  "timer-off": 1027,
  "comment-disagrees": 1028,
  "one-count-off": 1029,
  "core-not-started": 1030,
  "byte-order": 1031,
  "idle-timer": 1032,
  "reading-disagrees": 1033,
  "unread-comment": 1034,
};

/** Numbers of findings that are no more. */
export const retiredNumbers: readonly number[] = [];

/** `PW1001` */
export function ruleCode(id: string): string {
  const number = ruleNumbers[id];
  if (number === undefined) throw new RangeError(`the finding ${id} has no number`);
  return `PW${number}`;
}
