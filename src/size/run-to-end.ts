/** Does work that halts between its steps all at once. */
export function runToEnd<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
