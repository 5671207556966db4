const FIRST_WAIT_MILLISECONDS = 500;
const LONGEST_WAIT_MILLISECONDS = 4000;

export interface Connection {
  /** Somebody asked and nobody answered. */
  readonly lost: () => void;
  readonly isLost: () => boolean;
}

/**
 * Watches for the server to come back once it is found gone; while it is there, nothing is asked. `reach` tells whether it answers;
 * `changed` hears of each change.
 */
export function watchConnection(reach: () => Promise<boolean>, changed: (there: boolean) => void): Connection {
  let gone = false;
  const tryAgain = (waitMilliseconds: number): void => {
    setTimeout(async () => {
      if (await reach()) {
        gone = false;
        changed(true);
      } else tryAgain(Math.min(2 * waitMilliseconds, LONGEST_WAIT_MILLISECONDS));
    }, waitMilliseconds);
  };
  return {
    lost() {
      if (gone) return;
      gone = true;
      changed(false);
      tryAgain(FIRST_WAIT_MILLISECONDS);
    },
    isLost: () => gone,
  };
}
