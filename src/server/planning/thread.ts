import { setImmediate } from 'node:timers/promises';
import { parentPort } from 'node:worker_threads';
import {
  answerAhead,
  answerClockForecast,
  answerClockPack,
  answerDays,
  answerNow,
  answerTakeoff,
  answerWork,
  type ReadyJob,
} from '../../answers/index.ts';
import { firmRecord } from '../../planner/index.ts';
import type { HourlyWeather } from '../../weather/index.ts';
import { OneOfEach } from './one-of-each.ts';
import type { FromThread, Progress, ToThread } from './questions.ts';

/** The planning thread: answers questions in slices, so that a stop or another question gets in between. */

type Question = Exclude<ToThread, { readonly kind: 'stop' }>;

const port = parentPort;
if (port === null) throw new Error('planning/thread is started as a worker thread only');
const say = (message: FromThread): void => port.postMessage(message);
const stopped = new Set<number>();
const open = new Set<number>();

port.on('message', (message: ToThread) => {
  if (message.kind === 'stop') {
    if (open.has(message.id)) stopped.add(message.id);
    return;
  }
  open.add(message.id);
  void answer(message).finally(() => {
    open.delete(message.id);
    stopped.delete(message.id);
  });
});

async function answer(question: Question): Promise<void> {
  const { id } = question;
  try {
    const work = workOn(asKnown(question));
    while (!stopped.has(id)) {
      const next = work.next();
      if (next.done) return say({ id, kind: 'answer', answer: next.value });
      say({ id, kind: 'progress', progress: next.value });
      await setImmediate();
    }
    work.return(undefined);
  } catch (error) {
    const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
    say({ id, kind: 'failed', why });
  }
}

const forecasts = new OneOfEach<HourlyWeather>(2);
const jobs = new OneOfEach<ReadyJob>(8);

function asKnown(question: Question): Question {
  const { asked } = question;
  const known = {
    ...asked,
    ...('hourly' in asked ? { hourly: forecasts.of(asked.hourly) } : {}),
    ...('ready' in asked ? { ready: jobs.of(asked.ready) } : {}),
  };
  return { ...question, asked: known } as Question;
}

function* workOn(question: Question): Generator<Progress, unknown> {
  switch (question.kind) {
    case 'days': {
      const { ready, hourly, nowMs, options } = question.asked;
      return yield* answerDays(ready, hourly, nowMs, options);
    }
    case 'work': {
      const { ready, hourly, nowMs, date, tried } = question.asked;
      return answerWork(ready, hourly, nowMs, date, tried);
    }
    case 'pack': {
      const { ready, hourly, nowMs, date } = question.asked;
      return answerClockPack(ready, hourly, nowMs, date);
    }
    case 'clock':
      return answerClockForecast(question.asked);
    case 'takeoff':
      return answerTakeoff(question.asked.ready, question.asked.shelf);
    case 'ahead':
      return answerAhead(question.asked);
    case 'own-record':
      return firmRecord(question.asked.calls);
    case 'now':
      return answerNow(question.asked);
  }
}
