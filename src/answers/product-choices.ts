import type { TakeoffAnswer } from '../contract/index.ts';
import type { Product, ProductJob } from '../products/index.ts';
import { buildUpIssues } from '../stages/index.ts';
import type { ProductShelf, ReadyJob } from './job.ts';

type Role = keyof ReadyJob['products'];

const JOB_OF: Readonly<Record<Role, ProductJob>> = {
  field: 'field',
  perimeter: 'perimeter',
  primer: 'primer',
  lapTape: 'lap-tape',
  patch: 'patch',
  sealant: 'sealant',
  nightSeal: 'night-seal',
};

/** What else could be used for each job of the build-up, and why not where it cannot. */
export function productChoices(ready: ReadyJob, shelf: ProductShelf): TakeoffAnswer['choices'] {
  const roles = Object.keys(JOB_OF) as Role[];
  return Object.fromEntries(
    roles.map((role) => [
      role,
      [...shelf.values()]
        .filter((product) => product.does.includes(JOB_OF[role]))
        .map((product) => ({
          id: product.id,
          name: product.name,
          chosen: ready.products[role].id === product.id,
          refused: refusals(ready, role, product),
        })),
    ]),
  );
}

function refusals({ job, products }: ReadyJob, role: Role, product: Product): string[] {
  const buildUp = {
    ...job.buildUp,
    products: { ...job.buildUp.products, [role]: product.id },
  };
  return buildUpIssues(buildUp, { ...products, [role]: product })
    .filter(({ path }) => path === `buildUp.products.${role}`)
    .map(({ message }) => message);
}
