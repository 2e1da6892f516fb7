/** What was typed last, so that a step back from a lot shows the same lots again. It is gone when the app is closed. */
class LookedFor {
  typed = $state('');
}
export const looked_for = new LookedFor();
