/** Whether a process of this number is there, on this machine. */
export function runs(processNumber: number): boolean {
  try {
    process.kill(processNumber, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}
