import { clockText, longDayText } from '../../time/index.ts';
import type { DayOption } from '../day-option.ts';
import { forecastEndWords } from '../fit/forecast-end.ts';
import { forecastsWords } from '../forecast-words.ts';
import type { Reason } from '../reasons.ts';

/**
 * What a foreman can read out: the verdict, the times, what could stop it, and what of the day the
 * forecast does not reach.
 */
export function verdictSentence(option: DayOption): string {
  const end = forecastEndWords(option);
  return end === null ? calledSentence(option) : `${calledSentence(option)} ${end}`;
}

function calledSentence(option: DayOption): string {
  const zone = option.plan.prepared.job.site.timeZone;
  const day = longDayText(option.day.startMs, zone);
  const stop = stopWords(option, zone);
  const { chance, startMs } = option;
  const start = startMs === null ? '' : clockText(startMs, zone);
  switch (option.verdict) {
    case 'go': {
      const times = `start ${start}${by('last adhesive by', option.lastAdhesiveMs, zone)}${by('rain-safe by', option.rainSafeByMs, zone)}`;
      return `Lay on ${day}: ${times}; ${chance.words}.${stop}`;
    }
    case 'doubtful':
      if (chance.adjusted === null) {
        return `In the one forecast there is, ${day} works from a ${start} start${by('rain-safe by', option.rainSafeByMs, zone)}; no chance can be given.${stop}`;
      }
      return `Doubtful on ${day}: ${chance.words} from a ${start} start.${stop}`;
    case 'no': {
      const caught = option.outcomes.caughtOpen;
      if (caught > 0 && caught >= option.outcomes.stoodDown) {
        return `Do not open up on ${day}: caught open in ${caught} of ${forecastsWords(chance.of, chance.made === true)}; ${option.outcomes.finished === 0 ? 'none finishes' : `${chance.words} to finish`}.${stop}`;
      }
      if (chance.adjusted === null) return `Leave ${day}, by the one forecast there is.${stop}`;
      const finish = option.outcomes.finished === 0 ? 'finishes' : 'to finish';
      return `Leave ${day}: ${chance.words} ${finish}.${stop}`;
    }
    case 'unknown':
      if (chance.made)
        return `Too far off to say for ${day}: the forecast ends before the work does.`;
      return `Too far off to say for ${day}: ${option.outcomes.unknown} of ${option.runs.length} forecasts end before the work does.`;
  }
}

function by(words: string, ms: number | null, zone: string): string {
  return ms === null ? '' : `, ${words} ${clockText(ms, zone)}`;
}

function stopWords({ reasons, outcomes }: DayOption, zone: string): string {
  const reason: Reason | undefined = reasons[0];
  if (reason === undefined) return '';
  const around = reason.aroundMs === null ? '' : `, around ${clockText(reason.aroundMs, zone)}`;
  const stops = outcomes.finished === 0 ? 'What stops it' : 'What could stop it';
  return ` ${stops}: ${reason.words}${around}.`;
}

/** Words for a wait between two tasks and for the whole list are the caller's; these stand under every plan. */
export const CAUTIONS: readonly string[] = [
  'This is advice from a forecast. The product’s data sheet, the designer, local codes and licensed practice come first.',
  'Work at height: edge protection first, openings and fragile rooflights covered and marked. No plan trades a safety stop for output.',
  'Solvent adhesive and primer: no smoking, sparks, hot work or phones near fresh solvent; vapour runs to gutters and basements.',
  'First thunder: off the roof, back 30 minutes after the last.',
  'Before bonding: touch the deck, tissue test, read surface temperature and humidity. What you measure overrules this.',
];
