import type { Problem } from '../api/ask.ts';

/** The server's sentence, its details, and a way to ask again. */
export function Trouble({ problem, again }: { problem: Problem; again?: () => void }) {
  // The message often is its details joined; each sentence is worth reading once.
  const details = problem.issues.filter(({ message }) => !problem.message.includes(message));
  return (
    <div class="trouble" role="alert">
      <p>
        <strong>{problem.message}</strong>
      </p>
      {details.length > 0 && (
        <ul>
          {details.map((issue) => (
            <li key={issue.path + issue.message}>{issue.message}</li>
          ))}
        </ul>
      )}
      {again && (
        <button type="button" onClick={again}>
          Ask again
        </button>
      )}
    </div>
  );
}
