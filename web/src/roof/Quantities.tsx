import type { JobFile, TakeoffAnswer } from '../../../src/contract/index.ts';
import { figure } from '../words/figures.ts';
import { areasOf } from './what-if.ts';
import { EDGE_WORDS, sideName } from './words.ts';

/** Areas, edges and details, as measured on the roof. */
export function Quantities({ roof, job }: { roof: TakeoffAnswer['roof']; job: JobFile }) {
  const nameOf = (id: string) => areasOf(job).find((area) => area.id === id)?.name || id;
  const areas = [
    ['On the fall', roof.surfaceM2, 'm²'],
    ['In plan', roof.planM2, 'm²'],
    ['Field', roof.fieldM2, 'm²'],
    ['Perimeter strip', roof.perimeterStripM2, 'm²'],
    ['Turned up', roof.turnUpM2, 'm²'],
    ['Turned down', roof.turnDownM2, 'm²'],
    ['Round the outside', roof.perimeterM, 'm'],
  ] as const;
  const details = [
    ['inside corners', roof.corners.internal],
    ['outside corners', roof.corners.external],
    ['ends of upstands', roof.corners.upstandEnds],
    ['outlets', roof.outlets],
    ['pipes', roof.pipes],
    ['rooflights', roof.rooflights],
  ] as const;
  const several = new Set(roof.edges.map(({ area }) => area)).size > 1;
  return (
    <section aria-labelledby="areas-title">
      <h2 id="areas-title">Areas and edges</h2>
      <dl class="figures">
        {areas.map(([words, value, unit]) => (
          <div key={words}>
            <dt>{words}</dt>
            <dd>
              {figure(value)} {unit}
            </dd>
          </div>
        ))}
      </dl>
      <p>
        Details:{' '}
        {details
          .filter(([, count]) => count > 0)
          .map(([words, count]) => `${words} ${count}`)
          .join(', ') || 'none'}
        .
      </p>
      <table class="wide-table">
        <caption>Edges, going round; lengths on the fall</caption>
        <thead>
          <tr>
            <th scope="col">Edge</th>
            <th scope="col">Type</th>
            <th scope="col">Length</th>
            <th scope="col">Upstand</th>
          </tr>
        </thead>
        <tbody>
          {roof.edges.map(({ area, number, name, kind, lengthM, upstandMm }) => (
            <tr key={`${area} ${number}`}>
              <th scope="row">
                {several && `${nameOf(area)}, `}
                {sideName(name)}
              </th>
              <td>{EDGE_WORDS[kind]}</td>
              <td>{figure(lengthM)} m</td>
              <td>{upstandMm === 0 ? 'none' : `${figure(upstandMm)} mm`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
