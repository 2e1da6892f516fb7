/** Plurals by Intl: `#` in a form is the number. */
export type Forms = { readonly other: string } & Partial<Record<Intl.LDMLPluralRule, string>>;

export function many(locale: string): (n: number, forms: Forms) => string {
  const rules = new Intl.PluralRules(locale);
  const digits = new Intl.NumberFormat(locale, { maximumFractionDigits: 2 });
  return (n, forms) => (forms[rules.select(n)] ?? forms.other).replaceAll('#', digits.format(n));
}
