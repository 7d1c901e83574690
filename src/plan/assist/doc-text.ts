/**
 * What the key of a plan means, in words.
 *
 * In a bundle of the page a rule carries the number of its words alone (`tools/docs-apart.ts`), and this is where they are.
 *
 * @example
 * docText("Rating.") //=> "Rating."
 */
export const docText = (doc: string): string => doc;
