/** Give a text to the browser to be saved as a file. */
export function save(name: string, text: string): void {
  const link = document.createElement("a");
  const address = URL.createObjectURL(new Blob([text], { type: "text/plain;charset=utf-8" }));
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}
