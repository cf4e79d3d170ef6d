/** What a text tells its reader. */
export type Telling =
  | 'moved'
  | 'booked'
  | 'confirmed'
  | 'called off'
  | 'not needed'
  | 'starts tomorrow'
  | 'goes on tomorrow';

export interface Names {
  readonly firm: string;
  readonly site: string;
  readonly client: string;
}

export interface When {
  readonly dates: string;
  readonly formerDates: string;
  /** '07:30', null = not known yet. */
  readonly start: string | null;
}

export type Wording = (names: Names, when: When) => string;

/** The same in full, in brief, and without any name. */
export interface Wordings {
  readonly full: Wording;
  readonly brief: Wording;
  readonly bare: Wording;
}

const starting = ({ start }: When): string =>
  start === null ? 'start time to follow' : `start ${start}`;
const at = ({ start }: When): string => (start === null ? '' : ` at ${start}`);

const calledOffForCrew: Wordings = {
  full: ({ site, firm }, { formerDates }) =>
    `Called off: ${site} on ${formerDates}. The office will tell you what you do instead. ${firm}`,
  brief: ({ site }, { formerDates }) => `Called off: ${site} on ${formerDates}. Ask the office.`,
  bare: (_, { formerDates }) => `Called off: the roof on ${formerDates}. Ask the office.`,
};

/** A client is asked or told with a greeting and the firm's name; a crew by what to do. */
export const WORDINGS: Readonly<
  Record<Telling, { readonly client: Wordings; readonly crew: Wordings }>
> = {
  moved: {
    client: {
      full: ({ client, site, firm }, when) =>
        `Hello ${client}, may we lay your roof at ${site} on ${when.dates}, ${starting(when)}, instead of ${when.formerDates}? ${firm}`,
      brief: ({ site, firm }, when) =>
        `${site}: may we come ${when.dates}, ${starting(when)}, not ${when.formerDates}? ${firm}`,
      bare: (_, when) =>
        `May we lay your roof on ${when.dates}, ${starting(when)}, instead of ${when.formerDates}?`,
    },
    crew: {
      full: ({ site, firm }, when) =>
        `Can you do ${site} on ${when.dates}, ${starting(when)}, instead of ${when.formerDates}? ${firm}`,
      brief: ({ site }, when) =>
        `${site} on ${when.dates}, ${starting(when)}, not ${when.formerDates}?`,
      bare: (_, when) =>
        `Can you do the roof on ${when.dates}, ${starting(when)}, instead of ${when.formerDates}?`,
    },
  },
  booked: {
    client: {
      full: ({ client, site, firm }, when) =>
        `Hello ${client}, we can lay your roof at ${site} on ${when.dates}, ${starting(when)}, if the weather holds. Does that suit? ${firm}`,
      brief: ({ site, firm }, when) =>
        `${site}: may we come ${when.dates}, ${starting(when)}? ${firm}`,
      bare: (_, when) => `May we lay your roof on ${when.dates}, ${starting(when)}?`,
    },
    crew: {
      full: ({ site, firm }, when) =>
        `Can you do ${site} on ${when.dates}, ${starting(when)}? ${firm}`,
      brief: ({ site }, when) => `${site} on ${when.dates}, ${starting(when)}?`,
      bare: (_, when) => `Can you do a roof on ${when.dates}, ${starting(when)}?`,
    },
  },
  confirmed: {
    client: {
      full: ({ client, site, firm }, when) =>
        `Hello ${client}, confirmed: we lay your roof at ${site} on ${when.dates}, ${starting(when)}, if the weather holds. ${firm}`,
      brief: ({ site, firm }, when) =>
        `Confirmed: ${site} on ${when.dates}, ${starting(when)}. ${firm}`,
      bare: (_, when) => `Confirmed: your roof on ${when.dates}, ${starting(when)}.`,
    },
    crew: {
      full: ({ site, firm }, when) =>
        `Confirmed with the client: ${site} on ${when.dates}, ${starting(when)}. ${firm}`,
      brief: ({ site }, when) => `Confirmed: ${site} on ${when.dates}, ${starting(when)}.`,
      bare: (_, when) => `Confirmed: the roof on ${when.dates}, ${starting(when)}.`,
    },
  },
  'called off': {
    client: {
      full: ({ client, site, firm }, { formerDates }) =>
        `Hello ${client}, we cannot lay your roof at ${site} on ${formerDates}. We will ring you to find a new day. ${firm}`,
      brief: ({ site, firm }, { formerDates }) =>
        `Called off: ${site} on ${formerDates}. We will ring you. ${firm}`,
      bare: (_, { formerDates }) => `Called off: your roof on ${formerDates}. We will ring you.`,
    },
    crew: calledOffForCrew,
  },
  'not needed': {
    client: calledOffForCrew,
    crew: {
      full: ({ site, firm }, { formerDates }) =>
        `Another crew would do ${site}: you are not needed there on ${formerDates}. Is that all right? ${firm}`,
      brief: ({ site }, { formerDates }) => `${site}: not needed on ${formerDates}. All right?`,
      bare: (_, { formerDates }) => `Another crew would do the roof on ${formerDates}. All right?`,
    },
  },
  'starts tomorrow': {
    client: {
      full: ({ client, site, firm }, when) =>
        `Hello ${client}, we start on your roof at ${site} tomorrow, ${when.dates}${at(when)}. ${firm}`,
      brief: ({ site, firm }, when) =>
        `${site}: we start tomorrow, ${when.dates}${at(when)}. ${firm}`,
      bare: (_, when) => `We start on your roof tomorrow, ${when.dates}${at(when)}.`,
    },
    crew: {
      full: ({ site, firm }, when) =>
        `Tomorrow, ${when.dates}: ${site}, ${starting(when)}. Look at the plan before you set off. ${firm}`,
      brief: ({ site }, when) => `Tomorrow, ${when.dates}: ${site}, ${starting(when)}.`,
      bare: (_, when) => `Tomorrow, ${when.dates}: the roof, ${starting(when)}.`,
    },
  },
  'goes on tomorrow': {
    client: {
      full: ({ client, site, firm }, when) =>
        `Hello ${client}, we go on with your roof at ${site} tomorrow, ${when.dates}${at(when)}. ${firm}`,
      brief: ({ site, firm }, when) =>
        `${site}: we go on tomorrow, ${when.dates}${at(when)}. ${firm}`,
      bare: (_, when) => `We go on with your roof tomorrow, ${when.dates}${at(when)}.`,
    },
    crew: {
      full: ({ site, firm }, when) =>
        `Tomorrow, ${when.dates}: ${site} again, ${starting(when)}. Look at the plan before you set off. ${firm}`,
      brief: ({ site }, when) => `Tomorrow, ${when.dates}: ${site} again, ${starting(when)}.`,
      bare: (_, when) => `Tomorrow, ${when.dates}: the same roof, ${starting(when)}.`,
    },
  },
};
