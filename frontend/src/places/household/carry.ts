/** A text handed to the phone as a file, named for the household and the day. */
export function carry_out(content: string, household: string, day: string): void {
  const url = URL.createObjectURL(new Blob([content], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${household.replaceAll(/[^\p{L}\p{N}]+/gu, '-')}-${day}.json`;
  link.click();
  URL.revokeObjectURL(url);
}
