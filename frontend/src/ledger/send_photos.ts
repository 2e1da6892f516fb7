/** Photos follow their entries: sent once a line that names them was accepted, named by the hash of their bytes. */
import { is_object, parse_json } from '../wire/json.ts';
import { read_problem } from '../wire/problem.ts';
import { FAILED, NOT_OURS, sort_reply, type Stop } from './answers.ts';
import type { CycleDeps } from './cycle.ts';
import { hash_of } from './hashing.ts';
import { generation_of } from './lines.ts';
import type { Reply } from './ports.ts';
import type { Hash } from './shapes.ts';
import type { PhotoRow, PhotoStanding } from './store.ts';

export const photo_path = (hash: Hash): string => `/api/v1/photos/${hash}`;

export async function send_photos(deps: CycleDeps): Promise<Stop | 'done' | 'cut'> {
  const { photos, generation } = await due(deps);
  for (const photo of photos) {
    if (deps.cut()) return 'cut';
    const result = photo.standing === 'asked' ? await ask_for(deps, photo) : await send(deps, photo);
    if (typeof result !== 'string') return result;
    await set_standing(deps, photo.hash, result, generation);
  }
  return 'done';
}

/** Those whose line the server has, oldest first. */
async function due(
  deps: CycleDeps,
): Promise<{ readonly photos: readonly PhotoRow[]; readonly generation: number }> {
  return deps.store.read(['photos', 'entries', 'meta'], async (tx) => {
    const found: PhotoRow[] = [];
    for (const photo of await tx.all('photos')) {
      if (photo.standing !== 'to_send' && photo.standing !== 'asked') continue;
      for (const id of photo.named_by) {
        if ((await tx.get('entries', id))?.standing !== 'sent') continue;
        found.push(photo);
        break;
      }
    }
    const photos = found.sort((a, b) => a.kept_at - b.kept_at);
    return { photos, generation: await generation_of(tx) };
  });
}

/** After a reset: is it there still? */
async function ask_for(deps: CycleDeps, photo: PhotoRow): Promise<PhotoStanding | Stop> {
  const reply = await deps.transport.send({ method: 'HEAD', path: photo_path(photo.hash) }, deps.signal);
  if (reply?.status === 200 && /^image\//i.test(reply.content_type)) return 'sent';
  return reply?.status === 404 ? 'to_send' : stop_of(reply, deps.clock.now());
}

async function send(deps: CycleDeps, photo: PhotoRow): Promise<PhotoStanding | Stop> {
  const picture = await deps.store.read(['pictures'], (tx) => tx.get('pictures', `${photo.hash}/full`));
  if (picture === undefined) return 'broken';
  const request = {
    method: 'PUT',
    path: photo_path(photo.hash),
    content_type: photo.type,
    body: picture.bytes,
  } as const;
  const reply = await deps.transport.send(request, deps.signal);
  if (reply === undefined) return FAILED;
  const refusal = PICTURE_REFUSED.has(reply.status)
    ? read_problem(reply.content_type, reply.text)
    : undefined;
  if (refusal === undefined) return taken_or_stop(reply, deps.clock.now());
  if (refusal.code !== 'photo_hash') return 'refused';
  // Spoilt on the way, or on the phone's own disk?
  return hash_of(picture.bytes) === photo.hash ? FAILED : 'broken';
}

/** Too large, no kind of picture taken there, or not to be read: sending it again would not help. */
const PICTURE_REFUSED = new Set([413, 415, 422]);

function taken_or_stop(reply: Reply, now: number): 'sent' | Stop {
  const answer = sort_reply(reply, now);
  if (answer.kind !== 'ours') return stop_of(reply, now);
  const told = parse_json(answer.text);
  return is_object(told) && told['done'] === true ? 'sent' : NOT_OURS;
}

function stop_of(reply: Reply | undefined, now: number): Stop {
  const answer = reply === undefined ? FAILED : sort_reply(reply, now);
  return answer.kind === 'failed' || answer.kind === 'later' || answer.kind === 'halted' ? answer : FAILED;
}

/** What an answer from before a reset says is there may be gone: it is asked for. */
async function set_standing(
  deps: CycleDeps,
  hash: Hash,
  standing: PhotoStanding,
  generation: number,
): Promise<void> {
  await deps.store.write(['photos', 'meta'], async (tx) => {
    const photo = await tx.get('photos', hash);
    const stale = standing === 'sent' && (await generation_of(tx)) !== generation;
    if (photo !== undefined) await tx.put('photos', { ...photo, standing: stale ? 'asked' : standing });
  });
  deps.changed({ photos: true });
}
