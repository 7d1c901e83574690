/** A message as texts, what stands between backticks as code. Nothing of it is ever read as markup. */
export function withCode(text: string): Node[] {
  return text.split(/`([^`]*)`/).map((piece, i) => {
    if (i % 2 === 0) return document.createTextNode(piece);
    const code = document.createElement("code");
    code.textContent = piece;
    return code;
  });
}
