/** What the end of a field's name adds to what people call it. */
const PARTS: Readonly<Record<string, string>> = {
  lowMin: ', low end',
  typicalMin: ', typically',
  highMin: ', high end',
  low: ', low end',
  high: ', high end',
  unit: ', unit',
};

/**
 * A server's sentence with its field names in the words of the form: 'limits.airMinC.value is 40' becomes
 * 'Air at least is 40'. What has no word on the form stays as it is.
 */
export function inPlainNames(
  message: string,
  labels: readonly { readonly field: string; readonly label: string }[],
): string {
  return labels.reduce((text, { field, label }) => {
    const name = field.replaceAll('.', '\\.');
    const pattern = new RegExp(
      `(?<![\\w.])(?:(?:product|job)\\.)?${name}((?:\\.(?:value|printed|unit|low|high|lowMin|typicalMin|highMin|\\d+))*)(?![\\w])`,
      'g',
    );
    return text.replace(pattern, (_, rest: string) => label + partWords(rest));
  }, message);
}

function partWords(rest: string): string {
  const last = rest.split('.').at(-1) ?? '';
  return PARTS[last] ?? '';
}
