/** Time and timers, so that tests need not wait. */
export interface Clock {
  /** ms since 1970. */
  readonly now: () => number;
  /** Calls once after some ms; what it returns takes that back. */
  readonly after: (ms: number, call: () => void) => () => void;
}

export const pageClock: Clock = {
  now: () => Date.now(),
  after(ms, call) {
    const timer = setTimeout(call, ms);
    return () => {
      clearTimeout(timer);
    };
  },
};
