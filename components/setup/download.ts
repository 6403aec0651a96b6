/** Hands a file to the browser to be put into the maker's downloads. */
export function download(name: string, content: string | Uint8Array | Blob, type: string): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser may still be reading: the address is let go of when it surely has it.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
