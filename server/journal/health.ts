/** Told when writing fails, and when it works again. */
export interface JournalHooks {
  onfault(text: string): void;
  onrecovered(): void;
}

/** Whether the disk takes what it is given. Several kinds of writing may fail at once; changes only are told. */
export interface Health {
  bad(what: 'log' | 'checkpoint', text: string): void;
  good(what: 'log' | 'checkpoint'): void;
}

export function createHealth(hooks: JournalHooks): Health {
  const faults = { log: '', checkpoint: '' };
  let told = '';
  function tell(): void {
    const text = faults.log || faults.checkpoint;
    if (text === told) return;
    told = text;
    if (text === '') hooks.onrecovered();
    else hooks.onfault(text);
  }
  return {
    bad(what, text) {
      faults[what] = text;
      tell();
    },
    good(what) {
      faults[what] = '';
      tell();
    },
  };
}
