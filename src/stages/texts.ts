/** Sentences shown with the work: what to check, what hurts, what to do if rain comes. */

export const IF_RAIN = {
  before: 'Do not open up. Stand down, or wait under the go conditions.',
  strip:
    'Stop stripping. Cover or night-seal what is open, clear the outlets and check the rooms below.',
  deck: 'Cover the bare deck, wait, then dry it down and test again. Wet boards are replaced, not dried.',
  vapourLayer:
    'Finish and seal the length in hand, then night-seal its edge. Under a sealed layer the room stays dry; what lies on it must be dry before it is covered.',
  boards:
    'Stop laying. Cover what is out with sheeting, weighted, and the stacks as well. Wet boards are replaced, not dried.',
  sheet: 'Turn the sheet down flat, dry side under, weight the edges and wait.',
  field:
    'Stop spreading. Roll in what is still usable, turn the sheet down and weight it, then night-seal. Wetted wet adhesive is scraped off and spread again; a dried contact film is dried fully and given a thin fresh coat.',
  laps: 'Close what is primed and dry. Tape or turn down the open lap, weight it, and clean and prime again once dry.',
  perimeter:
    'Press in what is touch dry, turn the rest down and weight it, then seal the edge. A damp film is dried fully and coated thinly again.',
  details:
    'Finish the patch in hand if both faces are dry. Otherwise cover the detail and start it again from cleaning.',
  fixings:
    'Finish the length in hand; keep mastic under the whole bar. Sharp metal is slippery when wet.',
  trim: 'Stop; the sheet sheds water without the trim. Fix loose trims down before leaving.',
  sealant:
    'Stop: sealant wants a dry surface. Name what is not yet sealed in the record and protect what has no skin.',
  nightSeal:
    'Carry on: this is what keeps the rain out. Wipe dry, use plenty of mastic and weight the edge.',
  check: 'Watch the outlets run and look below for water.',
} as const;

export const CAUTION = {
  edges: 'Edges and openings: edge protection first, cover and mark rooflights and holes.',
  lifting: (kg: number): string =>
    `Lifting: the sheet weighs about ${kg} kg. Use a hoist or enough hands, and keep it low in wind.`,
  sail: 'A loose sheet is a sail: weight it as it comes off the roll and let go rather than be pulled.',
  hotSheet: 'Black sheet in the sun burns skin: gloves, knees covered, water and shade.',
  solvent:
    'Solvent vapour is flammable and heavier than air: no flame, grinder or running engine near, tins closed, air intakes below shut off, mask as the safety data sheet says.',
  polyurethane:
    'Isocyanates can sensitise the lungs for life: trained people, gloves, eyes and mask as the safety data sheet says.',
  slips: 'Dew, dust and soap make rubber slippery.',
  sharp: 'Cut metal is sharp: gloves, ends deburred.',
  dust: 'Dust: wet the cut or use extraction; mask and eyes.',
  boards: 'Boards catch the wind: carry them low, weight or fix each one as it goes down.',
  strip: 'Fragile or rotten deck may be underneath: work from boards, do not load the opening.',
  hotAir: 'Hot-air tool only after primer and adhesive vapours have cleared.',
} as const;

export const HOLD = {
  outlets: 'Outlets clear and running.',
  tissue: 'Dry white tissue pressed on the deck for 30 s: no mark.',
  film: 'If in doubt, clear film taped down 30-60 min in the sun: no droplets under it.',
  firstCoat: 'Surface at least 3 °C above the dew point at the deck (5 °C to be comfortable).',
  finger: 'Finger test decides, not the clock: tacky, nothing comes off on the finger, no strings.',
  wet: 'Adhesive still wet where the sheet meets it; skinned over = scrape and spread again.',
  lapClean: 'Lap faces free of dust, soap and adhesive; no adhesive inside the lap.',
  relax: '30 min relaxing at least; 60 min below 10 °C or if the sheet came folded.',
  angle: 'Sheet pressed right into the angle first, then up: no bridging.',
} as const;

/** Weight of sheet [kg/m2]: 1.3-2 for 1.1-1.5 mm, from memory. */
export const SHEET_KG_M2 = 1.6;
