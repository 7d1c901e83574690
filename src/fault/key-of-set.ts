/**
 * A key that is the same for the same whole numbers in any order; of few of them a number, which is quicker to find again than a word.
 *
 * @param below every number is less
 */
export function keyOfSet(numbers: readonly number[], below: number): number | string {
  const [first = 0, second = 0] = numbers;
  if (numbers.length === 1) return first;
  if (numbers.length === 2) return below * (1 + Math.min(first, second)) + Math.max(first, second);
  return [...numbers].sort((a, b) => a - b).join();
}
