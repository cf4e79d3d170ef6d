/** The rules of the weather, one file each. */
export { airTemp } from './air-temp.ts';
export { chill } from './chill.ts';
export { coldNight, NIGHT } from './cold-night.ts';
export { daylight, daysFrom } from './daylight.ts';
export { deckDry } from './deck-dry.ts';
export { dewMargin } from './dew-margin.ts';
export { heat } from './heat.ts';
export { humidity } from './humidity.ts';
export { lightning } from './lightning.ts';
export { type Asked, askedOf, type Marks, type Span } from './marks.ts';
export { rain } from './rain.ts';
export { roofWind } from './roof-wind.ts';
export type { ProductRule, Rule, RuleView, Whose } from './rule.ts';
export { sheetWind } from './sheet-wind.ts';
export { surfaceTemp } from './surface-temp.ts';
