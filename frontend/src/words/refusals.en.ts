/** Why the server took nothing of an entry, by its code; `never` by its reason. */
export const refusals_en = {
  reasons: {
    findings_needed: 'What was seen of it is not told, so it goes to no animal.',
    unsure: 'It was marked unsure, and what nobody is sure of goes to no animal.',
    rot_or_mould:
      'It was marked mouldy or rotten. Such matter goes to no animal, so this entry was not taken.',
    withheld: 'These animals get no scraps now: they are ill or under treatment.',
    housing_order: 'Birds are kept in by order: nothing goes outside to them.',
    salted: 'It was salted, so it goes to no animal.',
    spent: 'It was boiled out for stock, so it goes to no animal.',
    treated: 'It was dressed or treated, so it goes to no animal.',
    never: 'In this state it is never for these animals.',
    avoid: 'In this state it is not for these animals.',
    not_known: 'Nobody knows whether these animals may have it, so it was not taken.',
    country_not_set: 'What was cut in a kitchen goes to no animal until the country is set.',
    law_not_confirmed:
      'What was cut in a kitchen goes to no animal until a keeper has confirmed the local rule.',
    law_not_known: 'The feeding rule of your country is not known here.',
    law_prohibited: 'The feeding rule of your country forbids it.',
    law_not_allowed: 'A keeper has not allowed these animals what was cut in a kitchen.',
    animal_matter: 'It holds meat, fish or the like.',
  } as Readonly<Record<string, string>>,
  put_by: {
    unsure: 'Nobody could say what was on it, so it is not put by: this entry was not taken.',
    spoilt:
      'Rot or mould was on it or on its lot. What was cut clear is cooked and eaten soon, never jarred, frozen, dried or fermented: this entry was not taken.',
    patulin:
      'No bruised, mouldy or rotten fruit goes into any jar, dish or drink: its poison outlives heat. This entry was not taken.',
    not_sound: 'It was not sound enough to be put by: this entry was not taken.',
    not_known: 'No table tells of it in this state, so it is not put by.',
  } as Readonly<Record<string, string>>,
  codes: {
    role: 'This person may not write such an entry. Another may.',
    needs_switch: 'This person may write it once a keeper has switched it on for them.',
    not_theirs_to_judge: 'Children and minders don’t decide this: show it to an adult.',
    accident_by_grown: 'An accident is written by an adult: show it to one.',
    parent_refused: 'It hangs on another entry that was not taken. Mend that one first.',
    unknown_reference: 'It names something the household does not have (any more).',
    person_not_here: 'This person is not listed on this phone.',
    minder_ended: 'The minder’s time is over.',
    erased: 'The family erased this entry for good.',
    id_reused: 'Another entry stands under its name.',
    duplicate: 'It was written already.',
    not_for_them: 'This one is not for them: it needs another age, or what they are not asked for.',
    last_keeper: 'Somebody must stay keeper. Make another person keeper first.',
    other_household: 'It belongs to another household.',
    eggs_held:
      'The eggs of these animals are held back: they are no food until the day the label or the vet gave.',
    outbreak: 'Bird disease is near: small children stay away from the run. An adult does this.',
    pail_barred:
      'These animals get no scraps now: what was in the pail is compost. If they had it all the same, an adult writes the accident under Scraps.',
    kin_of_bed:
      'The heap took in a disease that lives on in soil, and its kin grow on that bed. If it lies there already, an adult writes it on the heap’s page.',
    bed_crop_missing:
      'The heap took in a disease that lives on in soil. Write it again on the heap’s page, with what is to grow on the bed.',
    material_unknown: 'Nothing is known of this on a heap.',
    too_large: 'It is too large to be sent.',
  } as Readonly<Record<string, string>>,
  other: (message: string) => message,
};

export type RefusalWords = typeof refusals_en;
