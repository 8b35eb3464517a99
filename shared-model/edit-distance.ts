/** How far apart two short words are: for "did you mean". */

/** Levenshtein distance; 3 stands for anything from there on where the lengths alone tell so. */
export function editDistance(left: string, right: string): number {
  if (Math.abs(left.length - right.length) > 2) {
    return 3;
  }
  let previous = Array.from({ length: right.length + 1 }, (_, index) => index);
  for (let i = 1; i <= left.length; i++) {
    const current = [i];
    for (let j = 1; j <= right.length; j++) {
      const substitution = previous[j - 1]! + (left[i - 1] === right[j - 1] ? 0 : 1);
      current.push(Math.min(previous[j]! + 1, current[j - 1]! + 1, substitution));
    }
    previous = current;
  }
  return previous[right.length]!;
}
