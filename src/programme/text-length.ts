/**
 * How long a text message is, as networks count it.
 * @source 3GPP TS 23.038, 6.2.1 (GSM 7 bit default alphabet) and 6.2.1.1 (extension table); 140 octets a
 *   message (3GPP TS 23.040, 9.2.3.24): 160 septets, or 70 characters of 16 bits
 */

// Row by row of the table; the escape at 0x1B stands for no character.
const BASIC = new Set(
  '@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !"#¤%&\'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà',
);
const EXTENDED = new Set('\f^{}\\[~]|€');

export interface TextLength {
  /** 'GSM': the 7 bit default alphabet; 'UCS-2': 16 bits each, as soon as one character is not in it. */
  readonly alphabet: 'GSM' | 'UCS-2';
  /** Septets, or units of 16 bits. */
  readonly units: number;
  /** Most units for one message that is called short here: under 160, or 70. */
  readonly most: number;
}

/** Counts a text: one septet a character of the alphabet, two of its extension, else 16 bits each. */
export function textLength(text: string): TextLength {
  let septets = 0;
  for (const character of text) {
    if (BASIC.has(character)) septets += 1;
    else if (EXTENDED.has(character)) septets += 2;
    else return { alphabet: 'UCS-2', units: text.length, most: 70 };
  }
  return { alphabet: 'GSM', units: septets, most: 159 };
}

export function isShort(text: string): boolean {
  const { units, most } = textLength(text);
  return units <= most;
}

/** Letters that are no letter with an accent, as people write them where they have no key for them. */
const PLAIN: Readonly<Record<string, string>> = {
  ...{ ł: 'l', Ł: 'L', đ: 'd', Đ: 'D', ı: 'i', œ: 'oe', Œ: 'OE', þ: 'th', Þ: 'Th', ð: 'd' },
  ...{ Ð: 'D', '‘': "'", '’': "'", '“': '"', '”': '"', '„': '"', '–': '-', '—': '-', '…': '...' },
};

/**
 * A name with the letters of the GSM alphabet where that only costs accents or typographic marks ('Łódź' becomes
 * 'Lodz', 'Ørsta' stays): else one letter would take more than half the room. Other scripts stay as they are.
 */
export function withPlainLetters(name: string): string {
  const plain = Array.from(name.normalize('NFC'), (character) => {
    if (BASIC.has(character) || EXTENDED.has(character)) return character;
    return PLAIN[character] ?? character.normalize('NFD').replace(/\p{M}/gu, '');
  }).join('');
  return textLength(plain).alphabet === 'GSM' ? plain : name;
}
