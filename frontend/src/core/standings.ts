// How something stands, in the words of linewright/check/1.

/** What somebody has to see to: neither within nor within on conditions that are met. */
export function isBad(standing: string): boolean {
  return standing !== "within" && standing !== "on conditions";
}
