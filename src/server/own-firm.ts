import type { Ctx, Firm } from '../store/index.ts';

/** The firm whose jobs are entered on this machine; later work gives it a name, people and crews. */
export const OWN_FIRM: Firm = {
  id: '9d5f0c1e-3a77-4c1b-8f0e-5b6a2d4c7e10',
  name: 'Your jobs',
  timeZone: 'UTC',
  demo: false,
};

export const OWN_CTX: Ctx = { firmId: OWN_FIRM.id, actorId: 'this-machine' };
