/** Follows a piece of metal to the node that stands for it, and shortens the way. */
export function rootOf(parent: Int32Array, node: number): number {
  let at = node;
  for (let up = parent[at] ?? at; up !== at; up = parent[at] ?? at) {
    const above = parent[up] ?? up;
    parent[at] = above;
    at = above;
  }
  return at;
}

/** Makes two pieces of metal one; the lower number stands for both, so that the order of joining changes nothing. */
export function unite(parent: Int32Array, a: number, b: number): void {
  const ra = rootOf(parent, a);
  const rb = rootOf(parent, b);
  if (ra < rb) parent[rb] = ra;
  else if (rb < ra) parent[ra] = rb;
}

export const separate = (count: number): Int32Array => Int32Array.from({ length: count }, (_, i) => i);
