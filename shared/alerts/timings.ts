/** Times of the alert life cycle, seconds, each with its source. */
export const TIMINGS = {
  /**
   * A silenced alert sounds again after this: MSC.302(87) §7.3 and MSC.252(83) §20.2.4, "within 30 s" [F]. `pass` is asked on
   * whole seconds, so the sound may come up to one second later when somebody silenced it between two of them.
   */
  silence: 30,
  /** A warning that nobody acknowledges while it holds becomes an alarm: at most 5 min, MSC.302(87) §7.4–7.6 [M]. */
  escalation: 300,
} as const;
