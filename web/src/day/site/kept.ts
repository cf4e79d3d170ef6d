/** Small things kept in the browser over a reload. A browser that keeps nothing loses only the reload. */
export function keep(key: string, value: unknown): void {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // Full or forbidden: the page still has it while it is open.
  }
}

export function kept<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(key);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null;
  }
}
