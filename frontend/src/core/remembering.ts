// What this browser keeps of its user between visits; a browser that keeps nothing only forgets.

export const TOLD = { tour: "linewright.tour", letters: "linewright.letters" } as const;
type Name = (typeof TOLD)[keyof typeof TOLD];

export function recall(name: Name): string | null {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

export function remember(name: Name, value: string): void {
  try {
    localStorage.setItem(name, value);
  } catch {
    // A private window: it is asked again next time.
  }
}
