export type JsonParse =
  | { readonly ok: true; readonly value: unknown; readonly repaired: boolean }
  | { readonly ok: false; readonly why: string };

// Strings are matched first so that the word inside a text is left alone.
const STRING_OR_NAN = /"[^"\\]*(?:\\.[^"\\]*)*"|-?\bnan\b/gi;

/**
 * Parses an answer of the weather service. It writes a bare `nan` for places outside a model's area,
 * which is not JSON and spoils the whole list: on failure those are read as null and parsed again.
 */
export function parseServiceJson(text: string): JsonParse {
  try {
    return { ok: true, value: JSON.parse(text), repaired: false };
  } catch {
    const mended = text.replace(STRING_OR_NAN, (m) => (m.startsWith('"') ? m : 'null'));
    try {
      return { ok: true, value: JSON.parse(mended), repaired: true };
    } catch (error) {
      return { ok: false, why: whyNotJson(text, error) };
    }
  }
}

export const looksLikeHtml = (text: string): boolean =>
  /^\s*<(!doctype|html|head|body|\?xml)/i.test(text);

function whyNotJson(text: string, error: unknown): string {
  const cut = text.indexOf('Unexpected error while streaming data');
  if (cut !== -1)
    return `the service broke off while sending: "${text.slice(cut, cut + 120).trim()}"`;
  if (!/[}\]]\s*$/.test(text)) return 'it breaks off before its end';
  return error instanceof Error ? error.message : 'it is not JSON';
}
