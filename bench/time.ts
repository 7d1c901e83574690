/** What one measurement came to, ms. */
export interface Timed {
  readonly median: number;
  /** 95th percentile; with few runs the slowest. */
  readonly slow: number;
  /** Median of what the process worked on all its threads, ms; absent: not measured. */
  readonly processor?: number;
  readonly runs: number;
}

/**
 * Times a piece of work that has warmed up, as long as it is then measured: for a given time, and at least a few times.
 *
 * @param work called with the number of the run
 * @param budgetMs how long to go on, warming up not counted
 */
export function timeWork(work: (run: number) => void, budgetMs = 1500, least = 5): Timed {
  let warm = 0;
  for (const from = performance.now(); warm < 2 || performance.now() - from < budgetMs;) work(warm++);
  const times: number[] = [];
  const worked: number[] = [];
  const begun = performance.now();
  for (let k = warm; times.length < least || (performance.now() - begun < budgetMs && times.length < 400); k++) {
    const before = process.cpuUsage();
    const from = performance.now();
    work(k);
    times.push(performance.now() - from);
    const { user, system } = process.cpuUsage(before);
    worked.push((user + system) / 1000);
  }
  return { ...sorted(times), processor: sorted(worked).median };
}

/** The same for times that were taken elsewhere. */
export function sorted(times: readonly number[]): Timed {
  const list = [...times].sort((a, b) => a - b);
  const at = (share: number): number => list[Math.min(list.length - 1, Math.floor(share * list.length))] ?? Number.NaN;
  return { median: at(0.5), slow: at(0.95), runs: list.length };
}

/** Order in which work grows with size: the slope of the straight line through the logarithms. */
export function exponentOf(points: readonly { readonly size: number; readonly ms: number }[]): number {
  const x = points.map((p) => Math.log(p.size));
  const y = points.map((p) => Math.log(p.ms));
  const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
  const mx = mean(x);
  const my = mean(y);
  const up = x.reduce((sum, xi, i) => sum + (xi - mx) * ((y[i] ?? 0) - my), 0);
  return up / x.reduce((sum, xi) => sum + (xi - mx) ** 2, 0);
}
