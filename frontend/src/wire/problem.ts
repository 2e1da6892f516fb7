/** RFC 9457 problem details, with a code for the phone and the facts for a sentence. */
import { is_object, is_text, parse_json, type JsonObject } from './json.ts';

export interface Problem {
  readonly code: string;
  readonly detail: string;
  readonly facts: JsonObject;
}

export const is_problem_type = (content_type: string): boolean =>
  /^application\/problem\+json\b/i.test(content_type);

/** undefined: whoever answered, it was not our server. */
export function read_problem(content_type: string, text: string): Problem | undefined {
  const problem = is_problem_type(content_type) ? parse_json(text) : undefined;
  if (!is_object(problem) || !is_text(problem['code'])) return undefined;
  const { code, detail, title, facts } = problem;
  const words = is_text(detail) ? detail : is_text(title) ? title : code;
  return { code, detail: words, facts: is_object(facts) ? facts : {} };
}
