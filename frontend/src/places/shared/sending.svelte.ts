/** The sheet behind the sync words: open from anywhere, drawn once in the app. */
class Sending {
  open = $state(false);
}
export const sending = new Sending();
